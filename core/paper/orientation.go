package paper

import (
	"bytes"
	"encoding/binary"
)

// orientation reads from a JPEG how the camera was held, 1 to 8 (Exif 2.32, 4.6.4 A, tag 274); 1, upright, where nothing is said.
func orientation(jpeg []byte) int {
	for at := 2; at+4 <= len(jpeg) && jpeg[at] == 0xFF; {
		kind, size := jpeg[at+1], int(binary.BigEndian.Uint16(jpeg[at+2:]))
		if kind == 0xDA || size < 2 || at+2+size > len(jpeg) {
			break
		}
		body := jpeg[at+4 : at+2+size]
		if tiff, ok := bytes.CutPrefix(body, []byte("Exif\x00\x00")); kind == 0xE1 && ok {
			return tiffOrientation(tiff)
		}
		at += 2 + size
	}
	return 1
}

// tiffOrientation looks for the tag in the first directory of a TIFF block.
func tiffOrientation(tiff []byte) int {
	if len(tiff) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.BigEndian
	if tiff[0] == 'I' {
		order = binary.LittleEndian
	}
	at := int64(order.Uint32(tiff[4:]))
	if at < 8 || at+2 > int64(len(tiff)) {
		return 1
	}
	n := int64(order.Uint16(tiff[at:]))
	for i := range n {
		entry := at + 2 + 12*i
		if entry+12 > int64(len(tiff)) {
			break
		}
		if order.Uint16(tiff[entry:]) == 274 {
			if v := int(order.Uint16(tiff[entry+8:])); v >= 1 && v <= 8 {
				return v
			}
			break
		}
	}
	return 1
}
