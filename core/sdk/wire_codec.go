package sdk

import (
	"errors"
	"fmt"

	"google.golang.org/grpc/mem"
	"google.golang.org/protobuf/encoding/protowire"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// wireCodec is the host's: it reads what a plugin may have made up, within bounds, and writes messages deterministically.
type wireCodec struct{}

// Name is the content subtype of protobuf.
func (wireCodec) Name() string { return "proto" }

// Marshal writes a message.
func (wireCodec) Marshal(v any) (mem.BufferSlice, error) {
	m, ok := v.(proto.Message)
	if !ok {
		return nil, fmt.Errorf("%T is no message", v)
	}
	b, err := proto.MarshalOptions{Deterministic: true}.Marshal(m)
	if err != nil {
		return nil, err
	}
	return mem.BufferSlice{mem.SliceBuffer(b)}, nil
}

// Unmarshal reads a message, within bounds.
func (wireCodec) Unmarshal(data mem.BufferSlice, v any) error {
	m, ok := v.(proto.Message)
	if !ok {
		return fmt.Errorf("%T is no message", v)
	}
	b := data.Materialize()
	room := maxParts
	if err := count(m.ProtoReflect().Descriptor(), b, &room); err != nil {
		return err
	}
	return proto.Unmarshal(b, m)
}

// plainMessage is a message of the contract, with the code that was generated to write and read it without reflection.
type plainMessage interface {
	MarshalVT() ([]byte, error)
	UnmarshalVT(data []byte) error
}

// servedCodec is the plugin's. It speaks to the host that started it alone, and leaves alone protobuf's reflection, whose
// tables for the contract take a plugin most of a megabyte. Without maps in the contract the same answer is the same bytes.
type servedCodec struct{ wireCodec }

// Marshal writes a message.
func (c servedCodec) Marshal(v any) (mem.BufferSlice, error) {
	m, ok := v.(plainMessage)
	if !ok {
		return c.wireCodec.Marshal(v)
	}
	b, err := m.MarshalVT()
	if err != nil {
		return nil, err
	}
	return mem.BufferSlice{mem.SliceBuffer(b)}, nil
}

// Unmarshal reads a message.
func (c servedCodec) Unmarshal(data mem.BufferSlice, v any) error {
	m, ok := v.(plainMessage)
	if !ok {
		return c.wireCodec.Unmarshal(data, v)
	}
	return m.UnmarshalVT(data.Materialize())
}

// maxParts is how many messages one message may hold. An empty one is two bytes on the wire and some hundred in memory:
// without this bound an answer within MaxMessage could take a gigabyte.
const maxParts = 100_000

var errTooManyParts = errors.New("the message has too many parts")

// count takes the messages within b off room. The contract's messages never hold themselves: the depth is bounded.
func count(d protoreflect.MessageDescriptor, b []byte, room *int) error {
	for len(b) > 0 {
		number, kind, n := protowire.ConsumeTag(b)
		if n < 0 {
			return protowire.ParseError(n)
		}
		b = b[n:]
		if n = protowire.ConsumeFieldValue(number, kind, b); n < 0 {
			return protowire.ParseError(n)
		}
		if f := d.Fields().ByNumber(number); kind == protowire.BytesType && f != nil && f.Message() != nil {
			if *room--; *room < 0 {
				return errTooManyParts
			}
			inner, _ := protowire.ConsumeBytes(b)
			if err := count(f.Message(), inner, room); err != nil {
				return err
			}
		}
		b = b[n:]
	}
	return nil
}
