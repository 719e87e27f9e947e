package web

import (
	"context"
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/require"
)

// A page that nobody waits for, or that the closing shop gives up, is broken off: an empty page with a good status would be kept on the device as the page.
func TestAPageThatIsGivenUpIsNoPage(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	r := httptest.NewRequestWithContext(ctx, "GET", "/jobs/J-009", nil)
	r.Header.Set("Accept-Encoding", "gzip")
	w := httptest.NewRecorder()
	require.PanicsWithValue(t, http.ErrAbortHandler, func() { handlerOf(t, &shop{}).ServeHTTP(w, r) })
	require.Empty(t, w.Body.String())
}

// A page says at which state of the book it was read, so that it follows what was written while it was on its way, or while it was kept on the device.
func TestAPageKnowsWhatItIsOlderThan(t *testing.T) {
	require.Contains(t, askOf(t, &shop{changed: 41}, "GET", "/jobs/J-001", "").Body.String(), `data-book="41"`)
	require.Contains(t, askOf(t, &shop{}, "GET", "/", "").Body.String(), `data-book="0"`)
}
