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
		{"GET /jobs/{job}", s.showVehicle},
		{"GET /jobs/{job}/bench", s.showBenches},
		{"GET /jobs/{job}/bench/{subsystem}", s.showBench},
		{"POST /jobs/{job}/readings", s.takeReadings},
		{"POST /jobs/{job}/undo", s.undoReading},
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
		if err := r.to(w, req); err != nil {
			s.tell(w, req, err)
		}
	})
}
