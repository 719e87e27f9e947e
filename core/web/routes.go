package web

import "net/http"

// route is one address of the bench.
type route struct {
	at  string // method and path, as http.ServeMux has them
	to  func(http.ResponseWriter, *http.Request) error
	who Role // who may go there; who may do more, may too
}

// routes are all of them, in the order of a job's life, with who may go there.
func (s *Server) routes() []route {
	return []route{
		{"GET /{$}", s.showYard, Mechanic},
		{"POST /{$}", s.toYard, Owner},
		{"GET /shop", s.showShop, Owner},
		{"POST /shop", s.setFigures, Owner},
		{"GET /shop/backup", s.sendBackup, Here},
		{"GET /shop/instruments", s.showInstruments, Mechanic},
		{"POST /shop/zero", s.checkZero, Mechanic},
		{"GET /shop/parties", s.showParties, Owner},
		{"POST /shop/parties", s.setParty, Owner},
		{"GET /shop/prices", s.showPrices, Owner},
		{"POST /shop/prices", s.setPrice, Owner},
		{"POST /shop/prices/back", s.undoPrice, Owner},
		{"GET /new", s.showNewJob, Owner},
		{"POST /new", s.openJob, Owner},
		{"GET /jobs/{job}/begin", s.showBegin, Mechanic},
		{"GET /jobs/{job}", s.showVehicle, Mechanic},
		{"POST /jobs/{job}/marks", s.addMark, Mechanic},
		{"POST /jobs/{job}/units", s.addUnit, Mechanic},
		{"POST /jobs/{job}/belongs", s.decideUnit, Owner},
		{"GET /jobs/{job}/arrive", s.showArrive, Mechanic},
		{"POST /jobs/{job}/arrive", s.arrive, Mechanic},
		{"GET /jobs/{job}/sheets", s.showSheets, Mechanic},
		{"GET /jobs/{job}/sheets/{subsystem}", s.showSheet, Mechanic},
		{"GET /jobs/{job}/labels", s.showLabels, Mechanic},
		{"GET /jobs/{job}/bench", s.showBenches, Mechanic},
		{"GET /jobs/{job}/bench/{subsystem}", s.showBench, Mechanic},
		{"POST /jobs/{job}/bench/{subsystem}/again", s.askAgain, Mechanic},
		{"POST /jobs/{job}/readings", s.takeReadings, Mechanic},
		{"POST /jobs/{job}/readings/{reading}/back", s.takeBack, Mechanic},
		{"GET /jobs/{job}/look", s.showLook, Mechanic},
		{"GET /jobs/{job}/choices", s.showChoices, Owner},
		{"GET /jobs/{job}/choices/{place...}", s.showChoice, Owner},
		{"POST /jobs/{job}/choices/{place...}", s.changeChoice, Owner},
		{"GET /jobs/{job}/money", s.showMoney, Owner},
		{"POST /jobs/{job}/money", s.changeMoney, Owner},
		{"GET /jobs/{job}/money/what-if", s.showWhatIf, Owner},
		{"GET /jobs/{job}/money/weighing", s.showWeighing, Owner},
		{"POST /jobs/{job}/money/weighing", s.beginWeighing, Owner},
		{"GET /jobs/{job}/money/days", s.showDays, Owner},
		{"POST /jobs/{job}/money/days", s.beginDays, Owner},

		{"GET /jobs/{job}/papers", s.showPapers, Owner},
		{"POST /jobs/{job}/papers/draft", s.beginDraft, Owner},
		{"GET /jobs/{job}/papers/draft", s.showDraft, Owner},
		{"GET /jobs/{job}/papers/draft/{file}", s.showDraftFile, Owner},
		{"POST /jobs/{job}/papers/issue", s.issueDraft, Owner},
		{"GET /jobs/{job}/papers/agree/{gate}", s.showAgree, Owner},
		{"POST /jobs/{job}/papers/agree/{gate}", s.agree, Owner},
		{"GET /jobs/{job}/papers/answer/{note}", s.showAnswer, Owner},
		{"POST /jobs/{job}/papers/answer/{note}", s.answerNote, Owner},
		{"GET /jobs/{job}/papers/{number}/{revision}", s.showIssued, Owner},
		{"GET /jobs/{job}/papers/{number}/{revision}/{file}", s.showIssuedFile, Owner},
		{"GET /jobs/{job}/papers/{number}/{revision}/beside/{other}", s.showCompare, Owner},

		{"GET /jobs/{job}/out", s.showOut, Mechanic},
		{"GET /jobs/{job}/out/send", s.showToSend, Owner},
		{"GET /jobs/{job}/out/send/new", s.showSend, Owner},
		{"POST /jobs/{job}/out/send/new", s.send, Owner},
		{"GET /jobs/{job}/out/buy", s.showToBuy, Owner},
		{"GET /jobs/{job}/out/buy/new", s.showBuy, Owner},
		{"POST /jobs/{job}/out/buy/new", s.buy, Owner},
		{"GET /jobs/{job}/out/{number}", s.showOutOne, Mechanic},
		{"POST /jobs/{job}/out/{number}", s.takeOutOne, Mechanic},

		{"GET /jobs/{job}/build", s.showBuild, Mechanic},
		{"GET /jobs/{job}/build/fit", s.showFit, Mechanic},
		{"POST /jobs/{job}/build/fit", s.fit, Mechanic},
		{"POST /jobs/{job}/hours", s.work, Mechanic},
		{"GET /jobs/{job}/handover", s.showHandover, Owner},
		{"POST /jobs/{job}/handover", s.handOver, Owner},
		{"POST /jobs/{job}/handover/run", s.takeRun, Owner},
		{"POST /jobs/{job}/handover/snags/{snag}", s.settleSnag, Owner},
		{"POST /jobs/{job}/handover/money", s.takePayment, Owner},

		{"GET /jobs/{job}/strip", s.showStrip, Mechanic},
		{"POST /jobs/{job}/strip", s.sayOfStep, Mechanic},
		{"GET /jobs/{job}/tags", s.showTags, Mechanic},
		{"POST /jobs/{job}/tags", s.makeTag, Mechanic},
		{"POST /jobs/{job}/photos", s.takePhoto, Mechanic},
		{"GET /tags", s.find, Mechanic},
		{"GET /tags/{tag}", s.showTag, Mechanic},
		{"POST /tags/{tag}", s.changeTag, Mechanic},
		{"GET /photos/{sum}", s.showPhoto, Mechanic},
		{"GET /photos/{sum}/small", s.showSmallPhoto, Mechanic},

		{"GET /lan", s.showLAN, Here},
		{"POST /lan/offers", s.offerPairing, Here},
		{"POST /lan/devices/{device}/out", s.putOut, Here},
		{"GET /pair", s.showPair, Anybody},
		{"POST /pair", s.pair, Anybody},
		{"GET /trust", s.showTrust, Anybody},
		{"GET /authority.crt", s.sendAuthority, Anybody},

		{"GET /live", s.showLive, Mechanic},
		{"GET /static/{version}/{file}", s.showStatic, Anybody},
		{"GET /worker.js", s.showWorker, Anybody},
		{"GET /manifest.webmanifest", s.showManifest, Mechanic},
		{"GET /offline", s.showOffline, Anybody},
	}
}

// answer lets those through who may go there, and lets a handler give an error, which is told as a page, or as JSON to a script.
func (s *Server) answer(r route) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		if r.at != "GET /live" { // it is written line by line, for hours
			var end func()
			w, end = zipping(w, req)
			defer end()
		}
		if s.Changes != nil && r.who >= Mechanic && r.at != "GET /live" {
			req = s.asRead(req)
		}
		to := r.to
		if s.visitor(req).Role < r.who {
			to = func(w http.ResponseWriter, req *http.Request) error { return s.refuse(w, req, r.who) }
		}
		if err := to(w, req); err != nil {
			s.tell(w, req, err)
		}
	})
}
