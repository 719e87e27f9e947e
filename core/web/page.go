package web

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"io/fs"
	"net/http"
	"path"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

//go:embed templates
var templateFiles embed.FS

// page is a template with the base round it.
type page struct{ *template.Template }

// frame is what stands round every page.
type frame struct {
	Title    string // of the page
	Shop     string
	Version  string    // of the static files
	Job      *core.Job // nil: no job's page
	Here     string    // which of the job's pages this is, as in jobPages
	By       string
	Book     string  // the book's state before anything of the page was read from it; "" if that is not known
	InCharge bool    // who reads it may do what the shop owner may
	Local    bool    // it is read at the shop's own machine
	Places   []place // the job's pages that may be read, for the way from one to another
}

// Over reports whether the job is handed over: nothing is done about it any more.
func (f frame) Over() bool { return f.Job != nil && f.Job.State == core.StateHandedOver }

// place is one of a job's pages.
type place struct{ Name, Path string }

// jobPages are the pages of a job, in the order of its life.
var jobPages = []place{{"Vehicle", ""}, {"Arrive", "/arrive"}, {"Strip", "/strip"}, {"Tags", "/tags"}, {"Sheets", "/sheets"}, {"Bench", "/bench"}, {"Look next", "/look"}, {"Choices", "/choices"}, {"Money", "/money"},
	{"Papers", "/papers"}, {"Out and in", "/out"}, {"Build", "/build"}, {"Handover", "/handover"}}

// frame makes what stands round a page.
func (s *Server) frame(r *http.Request, title string) frame {
	v := s.visitor(r)
	return frame{Title: title, Shop: s.Name, Version: staticVersion, By: v.Name, Book: bookOf(r), InCharge: v.Role >= Owner, Local: v.Role == Here}
}

// whole names the page of all that a job is about.
func whole(job *core.Job) string {
	if job.Vehicle == nil {
		return "Unit"
	}
	return "Vehicle"
}

// jobFrame makes what stands round a page of a job.
func (s *Server) jobFrame(r *http.Request, here string, job *core.Job) frame {
	f := s.frame(r, here+", "+job.Number)
	f.Job, f.Here = job, here
	for _, p := range jobPages {
		if p.Path == "" {
			p.Name = whole(job)
		}
		if s.visitor(r).Role >= s.who["/jobs/{job}"+p.Path] {
			f.Places = append(f.Places, p)
		}
	}
	return f
}

// pageTypes are the types that the templates are made for, by file. Every template stands here: a test checks each against its type.
var pageTypes = map[string]any{
	"fault": faultPage{}, "offline": offlinePage{}, "yard": yardPage{}, "vehicle": vehiclePage{}, "benches": benchesPage{}, "bench": benchPage{},
	"opening": openingPage{}, "newjob": newJobPage{}, "begin": beginPage{}, "sheets": sheetsPage{}, "sheet": sheetPage{}, "labels": labelsPage{},
	"arrive": arrivePage{}, "shop": shopPage{}, "parties": partiesPage{}, "prices": pricesPage{}, "instruments": instrumentsPage{}, "lan": lanPage{}, "pair": pairPage{}, "trust": trustPage{},
	"look": lookPage{}, "choices": choicesPage{}, "chosen": chosenPage{}, "choice": choicePage{},
	"money": moneyPage{}, "whatif": whatIfPage{}, "weighing": weighingPage{}, "days": daysPage{},
	"papers": papersPage{}, "draft": draftPage{}, "issued": issuedPage{}, "compare": comparePage{}, "agree": agreePage{}, "answer": answerPage{},
	"out": outPage{}, "to-send": toSendPage{}, "send": sendPage{}, "outwork": outworkPage{}, "to-buy": toBuyPage{}, "buy": buyPage{}, "purchase": purchasePage{},
	"build": buildPage{}, "fit": fitPage{}, "handover": handoverPage{},
	"strip": stripPage{}, "tags": tagsPage{}, "tag": tagPage{}, "find": findPage{},
}

// readPages reads every page's template with the base.
func readPages(zone *time.Location) (map[string]page, error) {
	files, err := fs.Glob(templateFiles, "templates/*.html")
	if err != nil {
		return nil, err
	}
	pages := map[string]page{}
	for _, f := range files {
		name := strings.TrimSuffix(path.Base(f), ".html")
		if name == "base" {
			continue
		}
		t, err := template.New("base.html").Funcs(words(zone)).ParseFS(templateFiles, "templates/base.html", "templates/parts/*.html", f)
		if err != nil {
			return nil, err
		}
		pages[name] = page{t}
	}
	return pages, nil
}

// show writes a page. What cannot be written whole is not written at all.
func (s *Server) show(w http.ResponseWriter, status int, name string, data any) error {
	p, ok := s.pages[name]
	if !ok {
		return fmt.Errorf("no template %q", name)
	}
	var out bytes.Buffer
	if err := p.Execute(&out, data); err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	if w.Header().Get("Cache-Control") == "" {
		w.Header().Set("Cache-Control", "no-cache")
	}
	w.WriteHeader(status)
	_, err := out.WriteTo(w)
	return err
}
