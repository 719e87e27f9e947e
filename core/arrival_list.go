package core

import "strings"

// What may be photographed or asked about, by what came.
const (
	OnVehicle = "vehicle" // only if a vehicle came
	OnBench   = "bench"   // only if units came without one
)

// What an item of the list is wanted for each of.
const (
	EachBox  = "box"  // of parts, as counted
	EachMark = "mark" // of identity, that was found
	EachUnit = "unit" // of the job; {unit} in its name stands for it
)

// ArrivalList is what a shop photographs as found, and what it asks.
type ArrivalList struct {
	Photos []PhotoItem       `json:"photos"`
	Asked  []ArrivalQuestion `json:"asked"`
}

// PhotoItem is one view wanted of what came.
type PhotoItem struct {
	Key   string `json:"key"` // instanced by position: "corner/LF"
	Name  string `json:"name"`
	Count int    `json:"count"`          // pictures wanted
	On    string `json:"on,omitempty"`   // OnVehicle or OnBench; "" both
	Each  string `json:"each,omitempty"` // EachBox, EachMark, EachUnit; "" one view
	Step  string `json:"step,omitempty"` // it cannot be seen before this step of the strip plan
}

// ArrivalQuestion is one thing asked of what came.
type ArrivalQuestion struct {
	Key string `json:"key"`
	Ask string `json:"ask"`
	On  string `json:"on,omitempty"`
}

// For gives what of the list concerns a job, counts filled in. Without an arrival nothing is counted: one box is taken to have come.
func (l ArrivalList) For(j Job, a *Arrival) ArrivalList {
	out := ArrivalList{Photos: []PhotoItem{}, Asked: []ArrivalQuestion{}}
	here := func(on string) bool { return on == "" || (on == OnVehicle) == (j.Vehicle != nil) }
	for _, p := range l.Photos {
		if !here(p.On) {
			continue
		}
		switch p.Each {
		case EachUnit:
			for _, u := range j.Units {
				if u.Role != UnitOut {
					q := p
					q.Key, q.Name = p.Key+"@"+u.ID, strings.ReplaceAll(p.Name, "{unit}", u.ID)
					out.Photos = append(out.Photos, q)
				}
			}
			continue
		case EachBox:
			if a.Says(AskBoxes) != "" {
				p.Count *= a.Boxes
			}
		case EachMark:
			p.Count *= max(1, len(j.marksHere())-len(j.MarksMissing()))
		}
		if p.Count > 0 {
			out.Photos = append(out.Photos, p)
		}
	}
	for _, q := range l.Asked {
		if here(q.On) {
			out.Asked = append(out.Asked, q)
		}
	}
	return out
}

// PhotoMissing is a view of which pictures are still wanted.
type PhotoMissing struct {
	PhotoItem
	Taken int `json:"taken"`
}

// Missing says which views lack pictures, given the titles of those there are. A title belongs to a view if it is the view's name or key, or goes on
// after a colon: "Wiring route: behind the dash".
func (l ArrivalList) Missing(titles []string) []PhotoMissing {
	taken := map[string]int{}
	for _, t := range titles {
		if p := l.Item(t); p != nil {
			taken[p.Key]++
		}
	}
	missing := []PhotoMissing{}
	for _, p := range l.Photos {
		if taken[p.Key] < p.Count {
			missing = append(missing, PhotoMissing{p, taken[p.Key]})
		}
	}
	return missing
}

// Item finds the view that a title belongs to, or nil.
func (l ArrivalList) Item(title string) *PhotoItem {
	head, _, _ := strings.Cut(title, ":")
	for i := range l.Photos {
		p := &l.Photos[i]
		for _, t := range []string{title, head} {
			if t = strings.TrimSpace(t); strings.EqualFold(t, p.Name) || strings.EqualFold(t, p.Key) {
				return p
			}
		}
	}
	return nil
}

// Keys lists the keys of a view at each of its positions.
func (l ArrivalList) Keys(view string) (keys []string) {
	for _, p := range l.Photos {
		if head, _, _ := strings.Cut(p.Key, "/"); strings.EqualFold(head, view) {
			keys = append(keys, p.Key)
		}
	}
	return keys
}

// Unanswered lists what was asked and not said yet.
func (l ArrivalList) Unanswered(a *Arrival) []ArrivalQuestion {
	open := []ArrivalQuestion{}
	for _, q := range l.Asked {
		if a.Says(q.Key) == "" {
			open = append(open, q)
		}
	}
	return open
}
