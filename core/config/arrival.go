package config

import (
	"strings"

	"github.com/fettle-tools/fettle/core"
)

type arrivalFile struct {
	Photos []photoItemFile `key:"photos,need"`
	Asked  []questionFile  `key:"asked"`
}

type photoItemFile struct {
	Mark      mark
	Key       text   `key:"key,need"`
	Name      text   `key:"name,need"`
	Positions []text `key:"positions"`
	Count     number `key:"count"`
	On        text   `key:"on"`
	Each      text   `key:"each"`
	Step      text   `key:"step"`
}

type questionFile struct {
	Key text `key:"key,need"`
	Ask text `key:"ask,need"`
	On  text `key:"on"`
}

// ReadArrival reads what a shop photographs as found, and what it asks of what comes:
//
//	photos:
//	  - key: hub-open                # a view wanted
//	    positions: [LF, RF, LR, RR]  # written once, becomes hub-open/LF ...; {position} in name and step stands for the position
//	    name: "Hub, open, {position}"
//	    step: "hub-off/{position}"   # it cannot be seen before this step of the strip plan
//	    count: 2                     # pictures of it; 1 if left out
//	    on: vehicle                  # only if a vehicle came; bench: only if units came without one; left out: both
//	    each: box                    # as many for each: box of parts counted, mark of identity found, or unit; {unit} in name stands for it
//	asked:
//	  - {key: mileage, ask: "Mileage as shown, with its unit", on: vehicle}
//
// The keys mileage, keys, boxes, loose, fluids, runs, papers and signed are the arrival's own; any other key is a question of the shop's. Faults, all
// told at once: unknown keys, a view, a name or a question twice, a count that is none.
func ReadArrival(data []byte, file string) (core.ArrivalList, error) {
	d := &document{file: file}
	var f arrivalFile
	d.read(data, "the arrival list", &f)
	list := core.ArrivalList{Photos: []core.PhotoItem{}, Asked: []core.ArrivalQuestion{}}
	views := map[string]bool{}
	for _, p := range f.Photos {
		for _, item := range d.photoItems(p) {
			for _, name := range []string{item.Key, item.Name} {
				key := strings.ToLower(name)
				if key != "" && views[key] && name != item.Key {
					d.add(p.Name.mark, "give it another name; {position} stands for the position", "%q names two views", name)
				} else if key != "" && views[key] {
					d.add(p.Key.mark, "take one out", "the view %s stands here twice", name)
				}
			}
			views[strings.ToLower(item.Key)], views[strings.ToLower(item.Name)] = true, true
			list.Photos = append(list.Photos, item)
		}
	}
	asked := map[string]bool{}
	for _, q := range f.Asked {
		key := d.id(q.Key)
		if key != "" && asked[key] {
			d.add(q.Key.mark, "take one out", "%s is asked twice", key)
		}
		asked[key] = true
		list.Asked = append(list.Asked, core.ArrivalQuestion{Key: key, Ask: q.Ask.s, On: d.oneOf(q.On, "sort of arrival", core.OnVehicle, core.OnBench)})
	}
	if err := d.err(); err != nil {
		return core.ArrivalList{}, err
	}
	return list, nil
}

// photoItems makes one view for each position.
func (d *document) photoItems(p photoItemFile) (items []core.PhotoItem) {
	each := d.oneOf(p.Each, "thing to count", core.EachBox, core.EachMark, core.EachUnit)
	on := d.oneOf(p.On, "sort of arrival", core.OnVehicle, core.OnBench)
	key, count := d.id(p.Key), 1
	if p.Count.set {
		count = d.whole(p.Count, 1, 1000)
	}
	if len(p.Positions) == 0 && strings.Contains(p.Name.s+p.Step.s, "{position}") {
		d.add(p.Name.mark, "give the view positions: [...]", "{position} in a view without positions")
	}
	if each != core.EachUnit && strings.Contains(p.Name.s, "{unit}") {
		d.add(p.Name.mark, "write each: unit", "{unit} in a view that is not of each unit")
	}
	positions := p.Positions
	if len(positions) == 0 {
		positions = []text{{}}
	}
	for _, at := range positions {
		item := core.PhotoItem{Key: key, Count: count, On: on, Each: each, Name: strings.ReplaceAll(p.Name.s, "{position}", at.s), Step: strings.ReplaceAll(p.Step.s, "{position}", at.s)}
		if at.s != "" {
			item.Key += "/" + d.id(at)
			if len(positions) > 1 && !strings.Contains(p.Name.s, "{position}") {
				item.Name += ", " + at.s
			}
		}
		items = append(items, item)
	}
	return items
}
