package scan

import (
	"context"
	"encoding/binary"
	"io"
)

// blob is a run of bytes of known length, read in pieces. A size taken from
// the file is always held against it before memory is asked for.
type blob struct {
	r    io.ReaderAt
	size int64
}

// read returns n bytes at off, or an error when they do not all lie inside.
func (b blob) read(off, n int64) ([]byte, error) {
	if off < 0 || n < 0 || off > b.size || n > b.size-off {
		return nil, io.ErrUnexpectedEOF
	}
	p := make([]byte, n)
	if _, err := b.r.ReadAt(p, off); err != nil && !(err == io.EOF && n == 0) {
		return nil, err
	}
	return p, nil
}

// head returns at most n bytes from off on, fewer at the end.
func (b blob) head(off, n int64) []byte {
	if off < 0 || off >= b.size {
		return nil
	}
	p, err := b.read(off, min(n, b.size-off))
	if err != nil {
		return nil
	}
	return p
}

// part returns a blob of n bytes at off, cut to what there is.
func (b blob) part(off, n int64) blob {
	if off < 0 || off > b.size {
		off, n = b.size, 0
	}
	n = max(0, min(n, b.size-off))
	return blob{io.NewSectionReader(b.r, off, n), n}
}

// stream reads the blob from its start; it tells how far it got, between 0
// and 1, and stops when the context ends.
func (b blob) stream(ctx context.Context, progress func(float64)) *stream {
	return &stream{ctx: ctx, r: io.NewSectionReader(b.r, 0, b.size), size: b.size, progress: progress}
}

type stream struct {
	ctx      context.Context
	r        io.Reader
	size     int64
	done     int64
	told     int64
	ended    bool // more was asked for than there is
	progress func(float64)
}

func (s *stream) Read(p []byte) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	n, err := s.r.Read(p)
	s.done += int64(n)
	s.ended = s.ended || n == 0 && err == io.EOF
	// A hundred steps are enough for a bar.
	if s.progress != nil && s.size > 0 && (s.done-s.told)*100 >= s.size {
		s.told = s.done
		s.progress(float64(s.done) / float64(s.size))
	}
	return n, err
}

var be, le = binary.BigEndian, binary.LittleEndian
