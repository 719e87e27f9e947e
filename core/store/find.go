package store

import (
	"cmp"
	"context"
	"database/sql"
	"encoding/json"
	"slices"
	"strings"
	"unicode"

	"github.com/fettle-tools/fettle/core"
)

// Found is one live thing of the book that has the words looked for.
type Found struct {
	Job   string `json:"job"`
	Kind  string `json:"kind"` // of its entry: tag, unit, vehicle, finding ...
	Name  string `json:"name"` // its number, or its address
	What  string `json:"what"`
	Lies  string `json:"lies,omitempty"`
	State string `json:"state,omitempty"`
}

// mostFound is how many entries are looked at before the live ones among them are told: the newest first.
const mostFound = 200

// Find looks for words in tags, units, marks, outwork, purchases, surprises, snags and noted findings of one job, or of all if job is "". The
// last word may be the beginning of one. What has the words in a row comes first, then the newest. Only what is live is found,
// and of a thing written several times its last form.
func (b *Book) Find(ctx context.Context, job, text string) (found []Found, err error) {
	found = []Found{}
	query := words(text)
	if query == "" {
		return nil, core.Errorf(core.Invalid, "write a tag's number, a part, a place or any word", "there is nothing to look for")
	}
	err = b.reading(ctx, func(tx *sql.Tx) error {
		es, err := candidates(ctx, tx, job, query)
		if err != nil {
			return err
		}
		if inRow := strings.ReplaceAll(query, " AND ", " + "); inRow != query {
			first, err := candidates(ctx, tx, job, inRow)
			if err != nil {
				return err
			}
			es = append(first, es...)
		}
		dead := map[string]map[string]bool{}
		seen, tags := map[string]bool{}, map[string][]Entry{}
		told := map[int64]bool{}
		for _, e := range es {
			if told[e.Seq] {
				continue
			}
			told[e.Seq] = true
			if dead[e.Job] == nil {
				if dead[e.Job], err = deadOf(ctx, tx, e.Job); err != nil {
					return err
				}
			}
			if dead[e.Job][e.ID] {
				continue
			}
			f, err := tell(e)
			if err != nil {
				return badBody(e, err)
			}
			key := f.Job + "\x00" + f.Kind + "\x00" + f.Name
			if seen[key] {
				continue
			}
			seen[key] = true
			if last, err := isLast(ctx, tx, e, f, dead[e.Job]); err != nil || !last {
				if err != nil {
					return err
				}
				continue
			}
			found = append(found, f)
			if f.Kind == "tag" {
				tags[f.Job] = append(tags[f.Job], e)
			}
		}
		return whereNow(ctx, tx, found, tags, dead)
	})
	return found, err
}

// whereNow puts tags where later acts have taken them: outwork that went and came back, what was built. Only what moves tags is laid over them,
// not the whole story of each job; tags are the entries that the tags among found were told from.
func whereNow(ctx context.Context, tx *sql.Tx, found []Found, tags map[string][]Entry, dead map[string]map[string]bool) error {
	stories := map[string]*core.Story{}
	for i := range found {
		f := &found[i]
		if f.Kind != "tag" {
			continue
		}
		s := stories[f.Job]
		if s == nil {
			moves, err := entriesOf(ctx, tx, f.Job, "outwork", "received", "fit")
			if err != nil {
				return err
			}
			moves = slices.DeleteFunc(moves, func(e Entry) bool { return dead[f.Job][e.ID] })
			all := append(moves, tags[f.Job]...)
			slices.SortFunc(all, func(a, b Entry) int { return cmp.Compare(a.Seq, b.Seq) })
			s = &core.Story{}
			for _, e := range all {
				act, err := core.DecodeAct(e.Kind, e.Body)
				if err != nil {
					return badBody(e, err)
				}
				s.Fold(act, core.Stamp{By: e.By, At: e.At})
			}
			stories[f.Job] = s
		}
		if t := s.Tag(f.Name); t != nil {
			f.Lies, f.State = t.Lies, t.State
		}
	}
	return nil
}

// keepWords notes the words of the entries that came after one: every text of what is looked for by word.
func keepWords(ctx context.Context, tx *sql.Tx, after int64) error {
	_, err := tx.ExecContext(ctx, `INSERT INTO words (rowid, body)
		SELECT e.seq, (SELECT group_concat(iif(key = 'bag', 'bag ', '') || atom, ' ') FROM json_tree(e.body) WHERE type = 'text' AND key NOT IN ('by', 'at'))
		FROM entries e WHERE e.seq > ? AND (e.kind IN ('tag', 'unit', 'vehicle', 'outwork', 'purchase', 'surprise', 'snag')
			OR e.kind = 'finding' AND coalesce(json_extract(e.body, '$.note'), '') <> '')`, after)
	return err
}

// words writes what was typed as a query: every run of letters and digits must be there, the last may go on.
func words(text string) string {
	parts := strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	for i, p := range parts {
		parts[i] = `"` + p + `"`
	}
	if len(parts) == 0 {
		return ""
	}
	if strings.Contains(text, "-") && len(strings.Fields(text)) == 1 && len(parts) > 1 { // a number like T-014-03: its pieces in a row
		return strings.Join(parts, " + ") + "*"
	}
	return strings.Join(parts, " AND ") + "*"
}

func candidates(ctx context.Context, tx *sql.Tx, job, query string) ([]Entry, error) {
	rows, err := tx.QueryContext(ctx, `SELECT e.seq, e.id, e.job, e.kind, e.body FROM words w JOIN entries e ON e.seq = w.rowid
		WHERE words MATCH ?1 AND (?2 = '' OR e.job = ?2) ORDER BY w.rowid DESC LIMIT ?3`, query, job, mostFound)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var es []Entry
	for rows.Next() {
		var e Entry
		var body string
		if err := rows.Scan(&e.Seq, &e.ID, &e.Job, &e.Kind, &body); err != nil {
			return nil, err
		}
		e.Body = json.RawMessage(body)
		es = append(es, e)
	}
	return es, rows.Err()
}

// tell says of an entry what a person looks for.
func tell(e Entry) (Found, error) {
	f := Found{Job: e.Job, Kind: e.Kind}
	switch e.Kind {
	case KindVehicle:
		var v core.Vehicle
		err := json.Unmarshal(e.Body, &v)
		f.Name, f.What = "vehicle", strings.Join(append([]string{v.Title}, markWords(v.Marks)...), "; ")
		return f, err
	case KindUnit:
		var u core.Unit
		err := json.Unmarshal(e.Body, &u)
		f.Name, f.What, f.State = u.ID, strings.Join(append([]string{u.Title}, markWords(u.Marks)...), "; "), u.Role
		return f, err
	case KindFinding:
		var g core.Finding
		err := json.Unmarshal(e.Body, &g)
		f.Name, f.What = strings.TrimSpace(g.Place().String()+" "+g.Check+" "+g.Station), g.Value.String()+", "+g.Note
		return f, err
	}
	a, err := core.DecodeAct(e.Kind, e.Body)
	if err != nil {
		return f, err
	}
	switch a := a.(type) {
	case *core.Tag:
		f.Name, f.What, f.Lies, f.State = a.ID, a.What, a.Lies, a.State
		if !a.Apart() {
			f.Lies = ""
		}
		for _, x := range a.Fasteners {
			if x.Bag != "" {
				f.What += ", bag " + x.Bag
			}
		}
	case *core.Outwork:
		f.Name, f.What, f.Lies = a.ID, strings.TrimSpace(a.Work+" "+strings.Join(a.Tags, ", ")), a.To
	case *core.Purchase:
		f.Name, f.What, f.Lies = a.ID, a.What, a.From
	case *core.Surprise:
		f.Name, f.What, f.Lies = a.ID, a.Found, a.Tag
	case *core.Snag:
		f.Name, f.What, f.State = a.ID, a.What, a.Cleared
	}
	return f, nil
}

func markWords(marks []core.Mark) []string {
	var words []string
	for _, m := range marks {
		words = append(words, strings.TrimSpace(m.Where+" "+m.Text+": "+m.Says))
	}
	return words
}

// isLast reports that no later live entry writes the same thing anew, without the words looked for.
func isLast(ctx context.Context, tx *sql.Tx, e Entry, f Found, dead map[string]bool) (bool, error) {
	key := map[string]string{"tag": "$.number", "outwork": "$.number", "purchase": "$.number", "surprise": "$.number", "snag": "$.number", KindUnit: "$.id"}[e.Kind]
	if key == "" && e.Kind != KindVehicle {
		return true, nil
	}
	query, args := `SELECT id FROM entries WHERE job = ? AND kind = ? AND seq > ?`, []any{e.Job, e.Kind, e.Seq}
	if key != "" {
		query += ` AND json_extract(body, ?) = ?`
		args = append(args, key, f.Name)
	}
	rows, err := tx.QueryContext(ctx, query, args...)
	if err != nil {
		return false, err
	}
	defer rows.Close()
	for rows.Next() {
		var id string
		if err := rows.Scan(&id); err != nil {
			return false, err
		}
		if !dead[id] {
			return false, rows.Err()
		}
	}
	return true, rows.Err()
}
