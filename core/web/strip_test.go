package web

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/jpeg"
	"io"
	"mime/multipart"
	"net/url"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func stepOf(key, name string, waits ...string) core.StripStep {
	t := core.StripStep{Key: key, Planned: true, Waits: waits}
	t.ID, t.Name, t.People, t.StripHours = key, name, 2, core.Range3{Low: 2, Likely: 3, High: 5}
	return t
}

func (*shop) Strip(context.Context, string) (core.Stripdown, error) {
	engine := stepOf("engine-out", "Engine out, with clutch")
	engine.Load, engine.Lift = "engine", &core.Lift{Weight: core.Quantity{Value: 430, Unit: "lb"}, Leg60: core.Quantity{Value: 248, Unit: "lb"}, Source: "weighed"}
	engine.Cautions = []core.Caution{{Text: "Never lift by the <carburettor> studs."}}
	engine.ConfirmHelp = "The gearbox front is held up."
	engine.Unread = []core.Unread{{Place: core.Place{Subsystem: "cooling", Unit: "cooling", Target: core.Target{Part: "fan-belt"}}, PartName: "Fan belt", Check: "deflection", Name: "deflection"}}
	done := stepOf("wash-down", "Wash down")
	done.Is = core.StepIsDone
	return core.StripdownOf([]core.StripStep{done, engine, stepOf("clutch-off", "Clutch off", "engine-out")}, 0, "the owner's yes: fettle agree J-001 strip --who NAME"), nil
}

func (*shop) Step(_ context.Context, _ string, said StepSaid) error {
	if said.Step == "engine-out" && !said.Confirmed {
		return errors.Join(core.Errorf(core.Conflict, "look, then say so: --confirm", "engine-out: not confirmed yet"), core.Errorf(core.Conflict, "say that they are there: --people 2", "engine-out takes 2 people"))
	}
	return nil
}

func (*shop) JobOf(_ context.Context, number string) (string, error) {
	if number != "T-014" {
		return "", core.Errorf(core.NotFound, "", "nothing has the number")
	}
	return "J-001", nil
}

func (*shop) Tag(_ context.Context, _ string, said TagSaid) (core.Tag, error) {
	if said.Number == "" && said.Given["lies"] == nil {
		return core.Tag{}, core.Errorf(core.Invalid, `say where: --lies "rack 2, shelf 3"`, "nobody could find it")
	}
	if b := said.Given["fasteners"]; b != nil {
		if _, err := core.ParseFasteners(b[0]); err != nil {
			return core.Tag{}, err
		}
	}
	return core.Tag{ID: "T-014"}, nil
}

func (*shop) CameOff(context.Context, string) ([]string, error) {
	return []string{"Radiator and fan off", "Wash down", "Hub and drum off, LF"}, nil
}
func (*shop) Parts(context.Context, string) ([]Named, error) {
	return []Named{{"gearbox/shaft", "Shaft"}, {"gearbox/case", "Case"}, {"transfer-box/case", "Case"}}, nil
}
func (*shop) Find(context.Context, string) ([]Found, error) {
	return []Found{{Job: "J-001", Kind: "tag", Name: "T-014", What: "radiator"}}, nil
}

// kept is the photograph that was kept last.
var kept PhotoSaid

func (*shop) KeepPhoto(_ context.Context, _ string, said PhotoSaid) (string, error) {
	kept = said
	return said.Tag, nil
}

func (*shop) OpenPhoto(_ context.Context, sum string) (io.ReadCloser, string, error) {
	switch sum[0] {
	case 'a':
		return io.NopCloser(bytes.NewReader(photograph(900, 600))), ".jpg", nil
	case 'b':
		return io.NopCloser(strings.NewReader("<script>")), ".html", nil
	}
	return nil, "", core.Errorf(core.NotFound, "", "the book has no such picture")
}

func photograph(w, h int) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, w, h)), nil); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// A step stands with all that is to be minded, and what keeps others back is named in words.
func TestTheNextStepStandsWithWhatIsToBeMinded(t *testing.T) {
	page := ask(t, "GET", "/jobs/J-001/strip", "").Body.String()
	for _, want := range []string{"Engine out, with clutch", "Never lift by the &lt;carburettor&gt; studs.", "430 lb", "The gearbox front is held up.", "2 to 5 h, likely 3, 2 people",
		"/jobs/J-001/bench/cooling#cooling/fan-belt%20deflection%20", "after Engine out, with clutch", "the owner&#39;s yes"} {
		require.Contains(t, page, want)
	}
	require.NotContains(t, page, "fettle agree", "a page has buttons, not commands")

	page = ask(t, "GET", "/jobs/J-001/strip?did=wash-down", "").Body.String()
	require.Contains(t, page, "Wash down: done")
	require.NotContains(t, page, "Tag what came off", "nothing came off in the wash")
}

// What is refused is shown again as it was typed, all faults at once; a script is told the same.
func TestARefusedStepKeepsWhatWasTyped(t *testing.T) {
	form := url.Values{"step": {"engine-out"}, "is": {"done"}, "hours": {"1:30"}, "who": {"Jory, Wenna"}, "people": {"1"}}.Encode()
	w := ask(t, "POST", "/jobs/J-001/strip", form, typedForm...)
	require.Equal(t, 409, w.Code)
	for _, want := range []string{"not confirmed yet", "Next: look, then say so<", "takes 2 people", "Next: say that they are there<", `value="1:30"`, `value="Jory, Wenna"`, `value="1"`} {
		require.Contains(t, w.Body.String(), want)
	}
	w = ask(t, "POST", "/jobs/J-001/strip", form, append(slices.Clone(typedForm), "Accept", "application/json")...)
	require.Equal(t, 409, w.Code)
	require.JSONEq(t, `{"faults":[{"what":"engine-out: not confirmed yet","next":"look, then say so"},{"what":"engine-out takes 2 people","next":"say that they are there"}]}`, w.Body.String())

	w = ask(t, "POST", "/jobs/J-001/strip", form+"&confirmed=yes", typedForm...)
	require.Equal(t, 303, w.Code)
	require.Equal(t, "/jobs/J-001/strip?did=engine-out", w.Header().Get("Location"))
	require.Equal(t, 422, ask(t, "POST", "/jobs/J-001/strip", form+"&confirmed=yes&id=x", typedForm...).Code)
	w = ask(t, "POST", "/jobs/J-001/strip", "step=wash-down&is=undone", typedForm...)
	require.Equal(t, 422, w.Code)
	require.Contains(t, w.Body.String(), "say why, in a word or two")
	require.Equal(t, 422, ask(t, "POST", "/jobs/J-001/strip", "step=engine-out&is=done&people=some", typedForm...).Code)
}

func TestWhatCameOffIsReadFromTheStep(t *testing.T) {
	for step, want := range map[string]string{"Radiator and fan off": "Radiator and fan", "Hub and drum off, LF": "Hub and drum, LF", "Engine out, with clutch": "Engine, with clutch", "Front axle off its springs": "Front axle",
		"Wheels off, vehicle on four stands": "Wheels", "Fuel and fluids out, battery out": "Fuel and fluids, battery", "Doors, windscreen, roof or hood and tailgate off": "Doors, windscreen, roof or hood and tailgate",
		"Wash down": "", "Wiring labelled at both ends and out": "Wiring labelled at both ends", "Body tub and bulkhead lifted": "Body tub and bulkhead"} {
		require.Equal(t, want, cameOff(step), step)
	}
}

// A tag is made, refused with what was typed, found by number as somebody types it, and shown with its fields.
func TestATagIsMadeAndFound(t *testing.T) {
	w := ask(t, "GET", "/jobs/J-001/tags?what=Radiator", "")
	require.Equal(t, 200, w.Code)
	require.Contains(t, w.Body.String(), `value="Radiator"`)
	require.Contains(t, w.Body.String(), `<script type="application/json" id="off">["Radiator and fan","Hub and drum, LF"]</script>`)
	w = ask(t, "POST", "/jobs/J-001/tags", "what=radiator&position=front", typedForm...)
	require.Equal(t, 422, w.Code)
	require.Contains(t, w.Body.String(), "Nobody could find it")
	require.Contains(t, w.Body.String(), `value="front"`)
	w = ask(t, "POST", "/jobs/J-001/tags", "what=radiator&lies=rack+3", typedForm...)
	require.Equal(t, "/tags/T-014", w.Header().Get("Location"))

	w = ask(t, "GET", "/tags/T-014", "")
	require.Equal(t, 200, w.Code)
	for _, want := range []string{"rack 3, top", "6 x 3/8 UNF 1 1/2 in, bag 3", "outer: 0.003 in 0.005 in", "short by 1", "/photos/" + strings.Repeat("a", 64) + "/small"} {
		require.Contains(t, w.Body.String(), want)
	}
	require.Equal(t, "/tags/T-014", ask(t, "GET", "/tags?q="+url.QueryEscape("http://bench.local:8040/tags/T-014"), "").Header().Get("Location"))
	for _, typed := range []string{"t14", "14", "T-14", "014"} {
		require.Equal(t, "/tags/T-014", ask(t, "GET", "/tags?q="+typed, "").Header().Get("Location"), typed)
		require.Equal(t, "/tags/T-014", ask(t, "GET", "/tags/"+typed, "").Header().Get("Location"), typed)
	}
	require.Equal(t, "T-014-03", asTag("t14-3"))
	require.Equal(t, "", asTag("rack 2"))
	w = ask(t, "GET", "/tags/T-099", "")
	require.Equal(t, 404, w.Code)
	require.Contains(t, w.Body.String(), "Nothing has the tag T-099")
	require.Contains(t, ask(t, "GET", "/tags?q=radiator", "").Body.String(), `href="/tags/T-014"`)
}

// Only what was changed in the form changes the tag: another device may have changed the rest meanwhile.
func TestOnlyWhatWasChangedIsGiven(t *testing.T) {
	typed := map[string]string{"lies": "rack 4", "state": "off", "fasteners": "6 x M8\n\n2 x M6", "note": ""}
	was := map[string]string{"lies": "rack 3", "state": "off", "fasteners": "6 x M8", "note": "bent"}
	require.Equal(t, TagFields{"lies": {"rack 4"}, "fasteners": {"6 x M8", "2 x M6"}, "note": {""}}, given(typed, was))
	w := ask(t, "POST", "/tags/T-014", "lies=rack+4&was-lies=rack+3&fasteners=lots&was-fasteners=", typedForm...)
	require.Equal(t, 422, w.Code)
	require.Contains(t, w.Body.String(), "no count at the start")
	require.Contains(t, w.Body.String(), `value="rack 4"`)
	require.Contains(t, w.Body.String(), ">lots</textarea>")
	require.Equal(t, 303, ask(t, "POST", "/tags/T-014", "lies=rack+4&was-lies=rack+3", typedForm...).Code)
}

// sentPhoto is the form that brings a photograph.
func sentPhoto(t *testing.T, raw []byte, fields ...string) (body, contentType string) {
	t.Helper()
	var b bytes.Buffer
	m := multipart.NewWriter(&b)
	for i := 0; i < len(fields); i += 2 {
		require.NoError(t, m.WriteField(fields[i], fields[i+1]))
	}
	f, err := m.CreateFormFile("photo", "photograph.jpg")
	require.NoError(t, err)
	_, err = f.Write(raw)
	require.NoError(t, err)
	require.NoError(t, m.Close())
	return b.String(), m.FormDataContentType()
}

// A photograph is made anew before it is kept; what is none, or too large, is said.
func TestAPhotographIsMadeAnew(t *testing.T) {
	raw := photograph(3000, 20)
	noted := append(append(append([]byte{}, raw[:2]...), []byte("\xFF\xE1\x00\x12Exif\x00\x00place here")...), raw[2:]...)
	body, kind := sentPhoto(t, noted, "tag", "T-014", "by", "Wenna")
	w := ask(t, "POST", "/jobs/J-001/photos", body, "Content-Type", kind)
	require.Equal(t, 303, w.Code, w.Body.String())
	require.Equal(t, "/tags/T-014", w.Header().Get("Location"))
	require.Equal(t, "Wenna", kept.By)
	require.NotContains(t, string(kept.JPEG), "place here")
	m, err := jpeg.Decode(bytes.NewReader(kept.JPEG))
	require.NoError(t, err)
	require.Equal(t, 2560, m.Bounds().Dx())

	body, kind = sentPhoto(t, []byte("ftypheic"), "tag", "T-014")
	w = ask(t, "POST", "/jobs/J-001/photos", body, "Content-Type", kind, "Accept", "application/json")
	require.Equal(t, 422, w.Code)
	require.JSONEq(t, `{"faults":[{"what":"the photograph cannot be kept: it is neither JPEG nor PNG","next":"keep it as JPEG or PNG"}]}`, w.Body.String())
	body, kind = sentPhoto(t, make([]byte, mostPhoto+1), "tag", "T-014")
	w = ask(t, "POST", "/jobs/J-001/photos", body, "Content-Type", kind)
	require.Equal(t, 422, w.Code)
	require.Contains(t, w.Body.String(), "more than 24 MB")
	require.Equal(t, 422, ask(t, "POST", "/jobs/J-001/photos", "tag=T-014", typedForm...).Code)
	// All else stays within its own, smaller bound.
	w = ask(t, "POST", "/jobs/J-001/readings", `{"readings":[{"note":"`+strings.Repeat("x", mostSent)+`"}]}`, "Accept", "application/json")
	require.Equal(t, 422, w.Code)
}

func TestOnlyPicturesOfTheBookAreShown(t *testing.T) {
	at := "/photos/" + strings.Repeat("a", 64)
	w := ask(t, "GET", at, "")
	require.Equal(t, "image/jpeg", w.Header().Get("Content-Type"))
	require.Contains(t, w.Header().Get("Cache-Control"), "immutable")
	small := ask(t, "GET", at+"/small", "")
	require.Equal(t, 200, small.Code)
	m, err := jpeg.Decode(small.Body)
	require.NoError(t, err)
	require.Equal(t, 480, m.Bounds().Dx())
	require.Equal(t, 404, ask(t, "GET", "/photos/"+strings.Repeat("b", 64), "").Code, "what is no picture is not shown")
	require.Equal(t, 404, ask(t, "GET", "/photos/"+strings.Repeat("c", 64), "").Code)
	require.Equal(t, 404, ask(t, "GET", "/photos/..%2ffettle.yaml", "").Code)
}

// Of very many tags, the parts of an assembly are left to its own page.
func TestManyTagsStayOnOnePage(t *testing.T) {
	var tags []core.Tag
	for range 30 {
		n := "T-" + string(rune('0'+len(tags)/30)) + "0" + string(rune('0'+len(tags)/3%10))
		tags = append(tags, core.Tag{ID: n}, core.Tag{ID: n + "-01"}, core.Tag{ID: n + "-02"})
	}
	require.Len(t, tagLines(tags), 30)
	require.Equal(t, 2, tagLines(tags)[0].Parts)
	require.Len(t, tagLines(tags[:30]), 30)
	require.Equal(t, 1, tagLines(tags[:30])[1].Depth())
}

// tagsOfShop are the tags of the shop's one job.
func tagsOfShop() []core.Tag {
	five, size := 5, func(v float64) core.Quantity { return core.Quantity{Value: v, Unit: "in"} }
	return []core.Tag{{ID: "T-014", What: "radiator", State: core.TagOff, Lies: "rack 3, top", Photos: []string{strings.Repeat("a", 64)},
		Fasteners: []core.Fasteners{{In: 6, Out: &five, Thread: "3/8 UNF", Length: "1 1/2 in", Bag: "3"}}, Shims: []core.Shim{{Thickness: size(.003), Side: "outer"}, {Thickness: size(.005), Side: "outer"}}}}
}

// While the owner's yes is missing, what needs none stands first and open, though it takes more hands than are here.
func TestWhatNeedsNoYesStandsFirst(t *testing.T) {
	step := func(key string, free bool) core.StripStep { return core.StripStep{Key: key, Free: free} }
	p := stripPage{frame: frame{Job: &core.Job{Number: "J-001"}}, Stripdown: core.Stripdown{Next: []core.StripStep{step("plug-out", false)}, Hands: []core.StripStep{step("wings-off", false), step("arrival", true)}}}
	keys := func() (keys []string) {
		for _, c := range p.Cards() {
			keys = append(keys, c.Key)
		}
		return keys
	}
	require.Equal(t, []string{"plug-out", "wings-off", "arrival"}, keys())
	p.Needs = "the owner's yes"
	require.Equal(t, []string{"arrival", "plug-out", "wings-off"}, keys())
}
