package store

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/json"

	"github.com/fettle-tools/fettle/core"
)

// unpackPaper keeps the bytes of a paper that came in a parcel, if they are those that were issued.
func unpackPaper(ctx context.Context, tx *sql.Tx, e Entry, content []byte) error {
	var p Paper
	if err := json.Unmarshal(e.Body, &p); err != nil {
		return badBody(e, err)
	}
	if hash(content) != p.SHA256 {
		return core.Errorf(core.Invalid, "export the job again; nothing of this file was taken in", "the bytes of paper %s are not those that were issued", p.Number)
	}
	return keepBytes(ctx, tx, e.ID, &p, content)
}

// keepParcelPhoto keeps a picture that came in a parcel, if its bytes have its hash.
func (b *Book) keepParcelPhoto(p parcelPhoto) error {
	if hash(p.Bytes) != p.SHA256 || !photoExt.MatchString(p.Ext) {
		return core.Errorf(core.Invalid, "export the job again; nothing of this file was taken in", "a picture in the parcel is damaged")
	}
	_, err := b.keep(p.Ext, bytes.NewReader(p.Bytes))
	return err
}
