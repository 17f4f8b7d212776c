package scan

import (
	"bufio"
	"errors"
	"io"
)

// Fax coding of black-and-white pictures: modified Huffman (TIFF compression
// 2), Group 3 in one or two dimensions (ITU-T T.4) and Group 4 (T.6). A row is
// kept as the columns where its colour changes, white first.

// faxReader yields rows of one bit a pixel, 1 for black, as TIFF packs them.
type faxReader struct {
	in     bitReader
	width  int
	scheme int // TIFF compression: 2, 3 or 4
	twoDim bool
	above  []int // changes of the row before, then width
	row    []int
	packed []byte
}

// bitReader looks at the next bits of a stream, most significant first.
// Behind the end it gives zeros and counts them.
type bitReader struct {
	r    io.ByteReader
	hold uint64
	n    int
	past int // zero bits given behind the end
}

var errFax = errors.New("the fax data is damaged")

func newFaxReader(r io.Reader, width, scheme, options int) *faxReader {
	return &faxReader{in: bitReader{r: bufio.NewReader(r)}, width: width, scheme: scheme,
		twoDim: scheme == 3 && options&1 != 0, above: []int{width}, packed: make([]byte, (width+7)/8)}
}

// peek returns the next k ≤ 24 bits.
func (b *bitReader) peek(k int) int {
	for b.n < k {
		c, err := b.r.ReadByte()
		if err != nil {
			c = 0
			b.past += 8
		}
		b.hold = b.hold<<8 | uint64(c)
		b.n += 8
	}
	return int(b.hold >> (b.n - k) & (1<<k - 1))
}

func (b *bitReader) skip(k int) { b.n -= k }

// align drops the bits up to the next whole byte.
func (b *bitReader) align() { b.n -= b.n % 8 }

// ended tells whether more bits were used than there are.
func (b *bitReader) ended() bool { return b.past > b.n }

// next returns the next row; the slice is reused.
func (f *faxReader) next() ([]byte, error) {
	f.row = f.row[:0]
	var err error
	switch {
	case f.scheme == 4:
		err = f.flat()
	case f.scheme == 3:
		err = f.group3()
	default:
		f.in.align()
		err = f.runs()
	}
	if f.in.ended() {
		return nil, io.ErrUnexpectedEOF
	}
	if err != nil {
		return nil, err
	}
	f.row = append(realChanges(f.row), f.width)
	f.pack()
	f.above, f.row = f.row, f.above
	return f.packed, nil
}

// realChanges takes out runs of no length: where the colour changes twice it
// does not change, and the next row must not refer to it.
func realChanges(row []int) []int {
	n := 0
	for _, v := range row {
		if n > 0 && row[n-1] == v {
			n--
			continue
		}
		row[n] = v
		n++
	}
	return row[:n]
}

// group3 reads a row that may begin with an end-of-line code and fill bits.
// In two dimensions a bit behind that code tells how the row is coded.
func (f *faxReader) group3() error {
	one := !f.twoDim
	if f.in.peek(11) == 0 {
		for f.in.peek(1) == 0 {
			f.in.skip(1)
			if f.in.ended() {
				return io.ErrUnexpectedEOF
			}
		}
		f.in.skip(1)
		if f.twoDim {
			one = f.in.peek(1) == 1
			f.in.skip(1)
		}
	} else if f.twoDim {
		return errFax
	}
	if one {
		return f.runs()
	}
	return f.flat()
}

// runs reads a row coded in one dimension: white and black runs in turn.
func (f *faxReader) runs() error {
	at, black := 0, 0
	for at < f.width {
		n, err := f.run(black)
		if err != nil {
			return err
		}
		if at += n; at > f.width {
			return errFax
		}
		f.row = append(f.row, at)
		black ^= 1
	}
	return nil
}

// run reads one run: make-up codes, then a terminating code.
func (f *faxReader) run(black int) (int, error) {
	n := 0
	for {
		c := runTables[black][f.in.peek(13)]
		if c.bits == 0 {
			return 0, errFax
		}
		f.in.skip(int(c.bits))
		if n += int(c.run); c.run < 64 {
			return n, nil
		}
		if n > f.width {
			return 0, errFax
		}
	}
}

// flat reads a row coded in two dimensions, against the row above.
func (f *faxReader) flat() error {
	at, black := -1, 0
	k := 0 // index into above, near b1
	for at < f.width {
		for k > 0 && f.above[k-1] > at {
			k--
		}
		for k < len(f.above)-1 && (f.above[k] <= at || k&1 != black) {
			k++
		}
		b1 := f.above[k]
		b2 := f.above[min(k+1, len(f.above)-1)]
		next := 0
		switch shift, bits := mode(f.in.peek(7)); {
		case bits == 0:
			return errFax
		case shift == modePass:
			f.in.skip(bits)
			at = b2
			continue
		case shift == modeHorizontal:
			f.in.skip(bits)
			var err error
			if next, err = f.pair(max(at, 0), black); err != nil {
				return err
			}
			at = next
			continue
		default:
			f.in.skip(bits)
			next = b1 + shift
		}
		if next < max(at, 0) || next > f.width || len(f.row) > 2*f.width {
			return errFax
		}
		f.row = append(f.row, next)
		at, black = next, black^1
	}
	return nil
}

// pair reads the two runs of horizontal mode and returns where they end.
func (f *faxReader) pair(at, black int) (int, error) {
	for _, colour := range [2]int{black, black ^ 1} {
		n, err := f.run(colour)
		if err != nil {
			return 0, err
		}
		if at += n; at > f.width {
			return 0, errFax
		}
		f.row = append(f.row, at)
	}
	return at, nil
}

// Modes of two-dimensional coding besides the vertical ones, which are shifts
// of −3 to 3.
const (
	modePass       = 100
	modeHorizontal = 101
)

// mode reads the mode code that seven bits begin with (ITU-T T.4, table 4)
// and how many bits it takes; 0 when there is none.
func mode(seven int) (shift, bits int) {
	switch {
	case seven>>6 == 1:
		return 0, 1
	case seven>>4 == 3:
		return 1, 3
	case seven>>4 == 2:
		return -1, 3
	case seven>>4 == 1:
		return modeHorizontal, 3
	case seven>>3 == 1:
		return modePass, 4
	case seven>>1 == 3:
		return 2, 6
	case seven>>1 == 2:
		return -2, 6
	case seven == 3:
		return 3, 7
	case seven == 2:
		return -3, 7
	}
	return 0, 0
}

// pack paints the black runs of the row as bits.
func (f *faxReader) pack() {
	clear(f.packed)
	for i := 1; i < len(f.row); i += 2 {
		for x := f.row[i-1]; x < f.row[i]; {
			if x&7 == 0 && x+8 <= f.row[i] {
				f.packed[x>>3] = 0xff
				x += 8
				continue
			}
			f.packed[x>>3] |= 0x80 >> (x & 7)
			x++
		}
	}
}
