package web

import "net/http"

// route is one address of the bench.
type route struct {
	at string // method and path, as http.ServeMux has them
	to func(http.ResponseWriter, *http.Request) error
}

// routes are all of them, in the order of a job's life.
func (s *Server) routes() []route {
	return []route{
		{"GET /{$}", s.showYard},
		{"GET /shop", s.showShop},
		{"GET /shop/backup", s.sendBackup},
		{"POST /shop/zero", s.checkZero},
		{"GET /shop/parties", s.showParties},
		{"POST /shop/parties", s.setParty},
		{"GET /shop/prices", s.showPrices},
		{"POST /shop/prices", s.setPrice},
		{"GET /new", s.showNewJob},
		{"POST /new", s.openJob},
		{"GET /jobs/{job}/begin", s.showBegin},
		{"GET /jobs/{job}", s.showVehicle},
		{"POST /jobs/{job}/marks", s.addMark},
		{"POST /jobs/{job}/units", s.addUnit},
		{"POST /jobs/{job}/belongs", s.decideUnit},
		{"GET /jobs/{job}/arrive", s.showArrive},
		{"POST /jobs/{job}/arrive", s.arrive},
		{"GET /jobs/{job}/sheets", s.showSheets},
		{"GET /jobs/{job}/sheets/{subsystem}", s.showSheet},
		{"GET /jobs/{job}/labels", s.showLabels},
		{"GET /jobs/{job}/bench", s.showBenches},
		{"GET /jobs/{job}/bench/{subsystem}", s.showBench},
		{"POST /jobs/{job}/readings", s.takeReadings},
		{"POST /jobs/{job}/readings/{reading}/back", s.takeBack},
		{"GET /jobs/{job}/look", s.showLook},
		{"GET /jobs/{job}/choices", s.showChoices},
		{"GET /jobs/{job}/choices/{place...}", s.showChoice},
		{"POST /jobs/{job}/choices/{place...}", s.changeChoice},
		{"GET /jobs/{job}/money", s.showMoney},
		{"POST /jobs/{job}/money", s.changeMoney},
		{"GET /jobs/{job}/money/what-if", s.showWhatIf},
		{"GET /jobs/{job}/money/weighing", s.showWeighing},
		{"POST /jobs/{job}/money/weighing", s.beginWeighing},
		{"GET /jobs/{job}/money/days", s.showDays},
		{"POST /jobs/{job}/money/days", s.beginDays},

		{"GET /jobs/{job}/papers", s.showPapers},
		{"POST /jobs/{job}/papers/draft", s.beginDraft},
		{"GET /jobs/{job}/papers/draft", s.showDraft},
		{"GET /jobs/{job}/papers/draft/{file}", s.showDraftFile},
		{"POST /jobs/{job}/papers/issue", s.issueDraft},
		{"GET /jobs/{job}/papers/agree/{gate}", s.showAgree},
		{"POST /jobs/{job}/papers/agree/{gate}", s.agree},
		{"GET /jobs/{job}/papers/{number}/{revision}", s.showIssued},
		{"GET /jobs/{job}/papers/{number}/{revision}/{file}", s.showIssuedFile},
		{"GET /jobs/{job}/papers/{number}/{revision}/beside/{other}", s.showCompare},

		{"GET /jobs/{job}/out", s.showOut},
		{"GET /jobs/{job}/out/send", s.showToSend},
		{"GET /jobs/{job}/out/send/new", s.showSend},
		{"POST /jobs/{job}/out/send/new", s.send},
		{"GET /jobs/{job}/out/buy", s.showToBuy},
		{"GET /jobs/{job}/out/buy/new", s.showBuy},
		{"POST /jobs/{job}/out/buy/new", s.buy},
		{"GET /jobs/{job}/out/{number}", s.showOutOne},
		{"POST /jobs/{job}/out/{number}", s.takeOutOne},

		{"GET /jobs/{job}/build", s.showBuild},
		{"GET /jobs/{job}/build/fit", s.showFit},
		{"POST /jobs/{job}/build/fit", s.fit},
		{"POST /jobs/{job}/hours", s.work},
		{"GET /jobs/{job}/handover", s.showHandover},
		{"POST /jobs/{job}/handover", s.handOver},
		{"POST /jobs/{job}/handover/run", s.takeRun},
		{"POST /jobs/{job}/handover/snags/{snag}", s.settleSnag},
		{"POST /jobs/{job}/handover/money", s.takePayment},

		{"GET /jobs/{job}/strip", s.showStrip},
		{"POST /jobs/{job}/strip", s.sayOfStep},
		{"GET /jobs/{job}/tags", s.showTags},
		{"POST /jobs/{job}/tags", s.makeTag},
		{"POST /jobs/{job}/photos", s.takePhoto},
		{"GET /tags", s.find},
		{"GET /tags/{tag}", s.showTag},
		{"POST /tags/{tag}", s.changeTag},
		{"GET /photos/{sum}", s.showPhoto},
		{"GET /photos/{sum}/small", s.showSmallPhoto},

		{"GET /live", s.showLive},
		{"GET /static/{version}/{file}", s.showStatic},
		{"GET /worker.js", s.showWorker},
		{"GET /manifest.webmanifest", s.showManifest},
		{"GET /offline", s.showOffline},
	}
}

// answer lets a handler give an error, which is told as a page, or as JSON to a script.
func (s *Server) answer(r route) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		if r.at != "GET /live" { // it is written line by line, for hours
			var end func()
			w, end = zipping(w, req)
			defer end()
		}
		if err := r.to(w, req); err != nil {
			s.tell(w, req, err)
		}
	})
}
