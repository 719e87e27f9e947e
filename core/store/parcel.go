package store

import (
	"bufio"
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// A parcel is a whole job as one file: a JSON value a line, with one key that says what it is. First the parcel
// itself, then the job's entries in order of arrival, the bytes of its papers and of its pictures, last the end with
// their numbers, by which a parcel cut short is known.
type parcelLine struct {
	Parcel *parcelHead  `json:"parcel,omitempty"`
	Entry  *Entry       `json:"entry,omitempty"`
	Paper  *parcelPaper `json:"paper,omitempty"`
	Photo  *parcelPhoto `json:"photo,omitempty"`
	End    *parcelEnd   `json:"end,omitempty"`
}

type parcelHead struct {
	Format string `json:"format"` // parcelFormat
	Schema int    `json:"schema"`
	Job    string `json:"job"`
}

type parcelPaper struct {
	Entry string `json:"entry"`
	Bytes []byte `json:"bytes"` // base64
}

type parcelPhoto struct {
	SHA256 string `json:"sha256"`
	Ext    string `json:"ext"`
	Bytes  []byte `json:"bytes"` // base64
}

type parcelEnd struct {
	Entries int `json:"entries"`
	Papers  int `json:"papers"`
	Photos  int `json:"photos"`
}

const parcelFormat = "fettle job"

// ExportJob writes a job with its papers and pictures as a parcel. The same job gives the same bytes.
func (b *Book) ExportJob(ctx context.Context, job string, w io.Writer) error {
	out := bufio.NewWriter(w)
	enc := json.NewEncoder(out)
	enc.SetEscapeHTML(false)
	err := b.reading(ctx, func(tx *sql.Tx) error {
		es, err := entriesOf(ctx, tx, job)
		if err != nil {
			return err
		}
		if job == "" || len(es) == 0 {
			return noJob(job)
		}
		lines := []parcelLine{{Parcel: &parcelHead{parcelFormat, Schema, job}}}
		end := &parcelEnd{Entries: len(es)}
		for i := range es {
			es[i].Seq = 0
			lines = append(lines, parcelLine{Entry: &es[i]})
		}
		for _, l := range lines {
			if err := enc.Encode(l); err != nil {
				return err
			}
		}
		for _, e := range es {
			l, err := b.attachment(ctx, tx, e, end)
			if err != nil {
				return err
			}
			if l == (parcelLine{}) {
				continue
			}
			if err := enc.Encode(l); err != nil {
				return err
			}
		}
		return enc.Encode(parcelLine{End: end})
	})
	if err != nil {
		return err
	}
	return out.Flush()
}

// attachment is the line with the bytes that belong to an entry, and counts it; empty if there are none.
func (b *Book) attachment(ctx context.Context, tx *sql.Tx, e Entry, end *parcelEnd) (l parcelLine, err error) {
	switch e.Kind {
	case KindPaper:
		p, err := paperOf(ctx, tx, `p.entry = ?`, e.ID)
		if err != nil {
			return l, err
		}
		end.Papers++
		l.Paper = &parcelPaper{e.ID, p.Bytes}
	case KindPhoto:
		var p Photo
		if err := json.Unmarshal(e.Body, &p); err != nil {
			return l, badBody(e, err)
		}
		f, err := b.OpenPhoto(p)
		if err != nil {
			return l, err
		}
		defer f.Close()
		bytes, err := io.ReadAll(f)
		if err != nil {
			return l, err
		}
		end.Photos++
		l.Photo = &parcelPhoto{p.SHA256, p.Ext, bytes}
	}
	return l, nil
}

// parcel is a parcel read.
type parcel struct {
	head   parcelHead
	es     []Entry
	papers map[string][]byte // by entry
	photos []parcelPhoto
}

// ImportJob takes in a parcel, all or nothing, and gives the job's number and how many entries were new. A parcel of a
// job that the book has already adds what it lacks. Errors: Invalid for what is no whole parcel, Newer for one of a
// newer program, Conflict if its number is another job's here.
func (b *Book) ImportJob(ctx context.Context, r io.Reader) (job string, added int, err error) {
	p, err := readParcel(r)
	if err != nil {
		return "", 0, err
	}
	for _, ph := range p.photos {
		if err := b.keepParcelPhoto(ph); err != nil {
			return "", 0, err
		}
	}
	err = b.writing(ctx, func(tx *sql.Tx) error {
		added = 0
		fresh, err := b.insert(ctx, tx, p.es)
		if err != nil {
			return err
		}
		for i, e := range p.es {
			if !fresh[i] {
				continue
			}
			added++
			if e.Kind == KindPaper {
				if err := unpackPaper(ctx, tx, e, p.papers[e.ID]); err != nil {
					return err
				}
			}
		}
		return nil
	})
	if core.ErrorCode(err) == core.Conflict {
		return "", 0, numberTaken(p.head.Job, err)
	}
	return p.head.Job, added, err
}

// readParcel reads a parcel to its end and checks that it is whole.
func readParcel(r io.Reader) (p parcel, err error) {
	p.papers = map[string][]byte{}
	dec := json.NewDecoder(r)
	dec.DisallowUnknownFields()
	for line := 1; ; line++ {
		var l parcelLine
		if err := dec.Decode(&l); err != nil {
			return p, notParcel(line, "it is cut short or is no parcel", ignoreEOF(err))
		}
		switch {
		case line == 1:
			if l.Parcel == nil || l.Parcel.Format != parcelFormat {
				return p, notParcel(line, "it does not begin like a parcel", nil)
			}
			if l.Parcel.Schema > Schema {
				return p, newer("the parcel", l.Parcel.Schema)
			}
			p.head = *l.Parcel
		case l.Entry != nil:
			if l.Entry.Job != p.head.Job || l.Entry.Job == "" {
				return p, notParcel(line, fmt.Sprintf("an entry of job %q in a parcel of job %q", l.Entry.Job, p.head.Job), nil)
			}
			p.es = append(p.es, *l.Entry)
		case l.Paper != nil:
			p.papers[l.Paper.Entry] = l.Paper.Bytes
		case l.Photo != nil:
			p.photos = append(p.photos, *l.Photo)
		case l.End != nil:
			if *l.End != (parcelEnd{len(p.es), len(p.papers), len(p.photos)}) || !p.opensJob() {
				return p, notParcel(line, "lines are missing", nil)
			}
			return p, nil
		default:
			return p, notParcel(line, "the line says nothing", nil)
		}
	}
}

func (p *parcel) opensJob() bool {
	return slices.ContainsFunc(p.es, func(e Entry) bool { return e.Kind == KindJob })
}

func notParcel(line int, why string, cause error) error {
	e := core.Errorf(core.Invalid, "export the job again; nothing of this file was taken in", "not a whole job: %s", why)
	e.Where, e.Err = fmt.Sprintf("line %d", line), cause
	return e
}

func ignoreEOF(err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return nil
	}
	return err
}
