package sdk

import (
	"encoding/binary"
	"errors"
	"math"
	"reflect"
	"strings"
)

// A packed document is a checked sheet as bytes: the length of its texts, the texts, each once, and the document's values
// in the order of its fields, texts by their place. It is read by the program that wrote it and by no other.

// pack writes a document.
func (d *document) pack() []byte {
	p := packer{places: map[string]int{}}
	p.value(reflect.ValueOf(d).Elem())
	out := binary.AppendUvarint(nil, uint64(p.texts.Len()))
	return append(append(out, p.texts.String()...), p.values...)
}

type packer struct {
	values []byte
	texts  strings.Builder
	places map[string]int
}

func (p *packer) number(n int64) { p.values = binary.AppendVarint(p.values, n) }

func (p *packer) text(s string) {
	at, known := p.places[s]
	if !known {
		at = p.texts.Len()
		p.places[s] = at
		p.texts.WriteString(s)
	}
	p.number(int64(at))
	p.number(int64(len(s)))
}

func (p *packer) value(v reflect.Value) {
	switch v.Kind() {
	case reflect.Func: // found again by its name: settled
	case reflect.Bool:
		p.number(int64(truthOf(v.Bool())))
	case reflect.Int:
		p.number(v.Int())
	case reflect.Float64:
		p.values = binary.LittleEndian.AppendUint64(p.values, math.Float64bits(v.Float()))
	case reflect.String:
		p.text(v.String())
	case reflect.Struct:
		for i := range v.NumField() {
			p.value(v.Field(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			p.value(v.Index(i))
		}
	case reflect.Slice:
		if v.IsNil() {
			p.number(-1)
			return
		}
		p.number(int64(v.Len()))
		for i := range v.Len() {
			p.value(v.Index(i))
		}
	case reflect.Pointer:
		p.number(int64(truthOf(!v.IsNil())))
		if !v.IsNil() {
			p.value(v.Elem())
		}
	default:
		panic("a sheet holds a " + v.Kind().String() + ", which cannot be packed")
	}
}

var errPacked = errors.New("the packed sheet cannot be read")

// unpack reads a packed document. The texts of the document are parts of packed.
func unpack(packed string) (d *document, err error) {
	defer func() {
		if recover() != nil { // cut short, or not one of ours
			d, err = nil, errPacked
		}
	}()
	u := unpacker{values: packed}
	texts := int(u.unsigned())
	u.texts, u.values = u.values[:texts], u.values[texts:]
	d = &document{}
	u.value(reflect.ValueOf(d).Elem())
	if len(u.values) > 0 {
		return nil, errPacked
	}
	for i := range d.parts {
		for j := range d.parts[i].checks {
			for _, x := range d.parts[i].checks[j].formulas() {
				if x != nil && x.whole != nil {
					x.whole.settled()
				}
			}
		}
	}
	return d, nil
}

type unpacker struct{ values, texts string }

func (u *unpacker) unsigned() (n uint64) {
	for shift := 0; ; shift += 7 {
		b := u.values[0]
		u.values = u.values[1:]
		n |= uint64(b&0x7f) << shift
		if b < 0x80 {
			return n
		}
	}
}

func (u *unpacker) number() int64 {
	n := u.unsigned()
	return int64(n>>1) ^ -int64(n&1) // as encoding/binary writes it
}

func (u *unpacker) value(v reflect.Value) {
	v = reflect.NewAt(v.Type(), v.Addr().UnsafePointer()).Elem() // the document's fields are its own
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(u.number() != 0)
	case reflect.Int:
		v.SetInt(u.number())
	case reflect.Float64:
		v.SetFloat(math.Float64frombits(binary.LittleEndian.Uint64([]byte(u.values[:8]))))
		u.values = u.values[8:]
	case reflect.String:
		at, n := u.number(), u.number()
		v.SetString(u.texts[at : at+n])
	case reflect.Struct:
		for i := range v.NumField() {
			u.value(v.Field(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			u.value(v.Index(i))
		}
	case reflect.Slice:
		if n := int(u.number()); n >= 0 {
			v.Set(reflect.MakeSlice(v.Type(), n, n))
			for i := range n {
				u.value(v.Index(i))
			}
		}
	case reflect.Pointer:
		if u.number() != 0 {
			v.Set(reflect.New(v.Type().Elem()))
			u.value(v.Elem())
		}
	}
}
