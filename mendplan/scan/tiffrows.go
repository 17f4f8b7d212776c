package scan

import (
	"bufio"
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"io"
	"math/bits"

	"golang.org/x/image/tiff/lzw"
)

// A strip or tile is never unpacked as a whole: its rows come one by one, so
// a file of one enormous strip takes no more memory than one of many.

// rowSource yields the packed rows of a strip or tile. The slice is reused.
type rowSource interface{ next() ([]byte, error) }

// source returns the rows of chunk i of a plane of the given samples.
func (l *tiffLayout) source(t *tiffFile, i, samples int) (rowSource, error) {
	b := t.part(offset(l.at[i]), t.size)
	if l.size[i] > 0 {
		b = t.part(offset(l.at[i]), offset(l.size[i]))
	}
	if b.size == 0 {
		return nil, io.ErrUnexpectedEOF
	}
	if l.compression == 7 {
		return l.jpegSource(b, samples)
	}
	var r io.Reader = io.NewSectionReader(b.r, 0, b.size)
	if l.reversed {
		r = bitReverser{r}
	}
	if l.compression >= 2 && l.compression <= 4 {
		return newFaxReader(r, l.chunkW, l.compression, l.faxOptions), nil
	}
	r, err := l.unpacker(r)
	if err != nil {
		return nil, err
	}
	rows := &packedRows{r: r, row: make([]byte, (l.chunkW*samples*l.bits+7)/8)}
	if l.predictor == 2 && l.compression != 1 && l.compression != 32773 {
		rows.undo, rows.samples, rows.order = l.bits, samples, t.order
	}
	return rows, nil
}

// unpacker undoes a byte-wise compression.
func (l *tiffLayout) unpacker(r io.Reader) (io.Reader, error) {
	in := bufio.NewReaderSize(r, max(512, min(1<<16, l.chunkW*l.chunkH*l.samples*l.bits/8)))
	switch l.compression {
	case 5:
		if p, _ := in.Peek(2); len(p) == 2 && p[0] == 0 && p[1]&1 == 1 {
			return nil, notRead("TIFF with the LZW of before 1992 is not read")
		}
		return lzw.NewReader(in, lzw.MSB, 8), nil
	case 8:
		z, err := zlib.NewReader(in)
		if err != nil {
			return nil, fmt.Errorf("deflated data: %w", err)
		}
		return z, nil
	case 32773:
		return &packBits{r: in}, nil
	}
	return in, nil
}

// packedRows reads rows of fixed length and undoes the predictor.
type packedRows struct {
	r       io.Reader
	row     []byte
	undo    int // bits of a sample whose differences are stored, 0 for none
	samples int
	order   binary.ByteOrder
}

func (p *packedRows) next() ([]byte, error) {
	if _, err := io.ReadFull(p.r, p.row); err != nil {
		return nil, err
	}
	switch p.undo {
	case 8:
		for i := p.samples; i < len(p.row); i++ {
			p.row[i] += p.row[i-p.samples]
		}
	case 16:
		for i := 2 * p.samples; i+1 < len(p.row); i += 2 {
			p.order.PutUint16(p.row[i:], p.order.Uint16(p.row[i:])+p.order.Uint16(p.row[i-2*p.samples:]))
		}
	}
	return p.row, nil
}

// packBits undoes the byte runs of TIFF 6.0, section 9.
type packBits struct {
	r      *bufio.Reader
	left   int
	repeat bool
	value  byte
}

func (p *packBits) Read(dst []byte) (int, error) {
	done := 0
	for done < len(dst) {
		if p.left == 0 {
			c, err := p.r.ReadByte()
			if err != nil {
				return done, err
			}
			if c == 128 {
				continue
			}
			p.left, p.repeat = int(c)+1, c > 128
			if p.repeat {
				p.left = 257 - int(c)
				if p.value, err = p.r.ReadByte(); err != nil {
					return done, io.ErrUnexpectedEOF
				}
			}
		}
		n := min(p.left, len(dst)-done)
		if p.repeat {
			for i := range n {
				dst[done+i] = p.value
			}
		} else if k, err := io.ReadFull(p.r, dst[done:done+n]); err != nil {
			return done + k, err
		}
		done, p.left = done+n, p.left-n
	}
	return done, nil
}

// bitReverser turns the bits of each byte round (FillOrder 2).
type bitReverser struct{ r io.Reader }

func (b bitReverser) Read(p []byte) (int, error) {
	n, err := b.r.Read(p)
	for i := range p[:n] {
		p[i] = bits.Reverse8(p[i])
	}
	return n, err
}

// planeRows joins one row of each plane into one row of pixels.
type planeRows struct {
	planes []rowSource
	l      *tiffLayout
	row    []byte
}

func (p *planeRows) next() ([]byte, error) {
	n := len(p.planes)
	for k, plane := range p.planes {
		src, err := plane.next()
		if err != nil {
			return nil, err
		}
		switch {
		case p.l.bits == 8:
			for i, v := range src[:p.l.chunkW] {
				p.row[i*n+k] = v
			}
		case p.l.bits == 16:
			for i := range p.l.chunkW {
				copy(p.row[2*(i*n+k):][:2], src[2*i:])
			}
		default:
			for i := range p.l.chunkW {
				setBits(p.row, i*n+k, p.l.bits, getBits(src, i, p.l.bits))
			}
		}
	}
	return p.row, nil
}

// getBits returns sample i of a row of samples of 1 to 16 bits.
func getBits(p []byte, i, n int) uint32 {
	at := i * n
	v := uint32(0)
	for k := at / 8; k*8 < at+n; k++ {
		v = v<<8 | uint32(p[k])
	}
	over := (8 - (at+n)%8) % 8
	return v >> over & (1<<n - 1)
}

// setBits writes sample i of a row of samples.
func setBits(p []byte, i, n int, v uint32) {
	for k := range n {
		at := i*n + k
		bit := byte(0x80 >> (at & 7))
		p[at>>3] &^= bit
		if v>>(n-1-k)&1 != 0 {
			p[at>>3] |= bit
		}
	}
}

// subsampledRows yields rows of full YCbCr from data units in which several
// lumas share a chroma pair (TIFF 6.0, section 21).
type subsampledRows struct {
	r      io.Reader
	w      int
	sx, sy int
	units  []byte
	row    []byte
	y      int
}

func newSubsampledRows(r io.Reader, l *tiffLayout) *subsampledRows {
	n := (l.chunkW + l.subX - 1) / l.subX
	return &subsampledRows{r: r, w: l.chunkW, sx: l.subX, sy: l.subY, y: l.subY,
		units: make([]byte, n*(l.subX*l.subY+2)), row: make([]byte, 3*l.chunkW)}
}

func (s *subsampledRows) next() ([]byte, error) {
	if s.y == s.sy {
		if _, err := io.ReadFull(s.r, s.units); err != nil {
			return nil, err
		}
		s.y = 0
	}
	size := s.sx*s.sy + 2
	for x := range s.w {
		u := s.units[x/s.sx*size:][:size]
		s.row[3*x], s.row[3*x+1], s.row[3*x+2] = u[s.y*s.sx+x%s.sx], u[size-2], u[size-1]
	}
	s.y++
	return s.row, nil
}

// imageRows yields rows of a whole decoded chunk.
type imageRows struct {
	pix []byte
	n   int // bytes a row
}

func (m *imageRows) next() ([]byte, error) {
	if len(m.pix) < m.n {
		return nil, io.ErrUnexpectedEOF
	}
	row := m.pix[:m.n]
	m.pix = m.pix[m.n:]
	return row, nil
}

// withMarkers puts JPEG segments before the data of a stream, behind its
// start-of-image marker, which is where shared tables belong.
func withMarkers(stream io.Reader, extra ...[]byte) io.Reader {
	parts := []io.Reader{bytes.NewReader([]byte{0xff, 0xd8})}
	for _, e := range extra {
		parts = append(parts, bytes.NewReader(e))
	}
	return io.MultiReader(append(parts, stream)...)
}
