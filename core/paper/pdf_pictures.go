package paper

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"

	"codeberg.org/go-pdf/fpdf"
)

const (
	picturesAbreast = 3
	pictureHeight   = 42.0 // mm, the frame that every picture of a row is set in
)

// pictures are set three abreast, each in its frame with its caption below, a row kept whole.
func (p *printer) pictures(b Pictures) {
	for i := 0; i < len(b.Items); i += picturesAbreast {
		p.put(p.pictureRow(b.Items[i:min(i+picturesAbreast, len(b.Items))]), nil)
	}
}

func (p *printer) pictureRow(items []Picture) band {
	w := (p.width - cellGap*(picturesAbreast-1)) / picturesAbreast
	b := band{above: pictureHeight + 1.5, below: 4}
	for i, it := range items {
		x := float64(i) * (w + cellGap)
		b.fields = append(b.fields, field{x: x, w: w, runs: append(p.runs(compactSet.strong, it.Title, w), p.runs(compactSet.note, it.Text, w)...)})
	}
	b.extra = func(y, _ float64) {
		for i, it := range items {
			p.picture(it, p.left+float64(i)*(w+cellGap), y, w)
		}
	}
	return b
}

// picture draws one in the middle of its frame, as large as the frame lets it be; or why it is not there.
func (p *printer) picture(it Picture, x, y, w float64) {
	p.f.SetDrawColor(rule.R, rule.G, rule.B)
	p.f.SetLineWidth(.15)
	p.f.Rect(x, y, w, pictureHeight, "D")
	if it.Fault != "" {
		at := y + 2
		for _, r := range p.runs(compactSet.note, it.Fault, w-4) {
			p.text(x+2, at, r.text, r.face)
			at += r.face.height()
		}
		return
	}
	k := min((w-1)/float64(it.Width), (pictureHeight-1)/float64(it.Height))
	pw, ph := float64(it.Width)*k, float64(it.Height)*k
	hash := sha256.Sum256(it.JPEG)
	name, how := hex.EncodeToString(hash[:]), fpdf.ImageOptions{ImageType: "JPEG"}
	p.f.RegisterImageOptionsReader(name, how, bytes.NewReader(it.JPEG))
	p.f.ImageOptions(name, x+(w-pw)/2, y+(pictureHeight-ph)/2, pw, ph, false, how, 0, "")
}
