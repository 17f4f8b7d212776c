package scan

import (
	"bytes"
	"math/rand/v2"
	"strings"
	"testing"
)

// packRuns codes a row by the published tables in one dimension, most
// significant bit first, padded to a byte: what TIFF 6.0, section 10, calls
// modified Huffman.
func packRuns(runs []int) []byte {
	codes := [2][]string{strings.Fields(whiteRunCodes + longRunCodes), strings.Fields(blackRunCodes + longRunCodes)}
	bits := ""
	for i, run := range runs {
		for run >= 2560 {
			bits += codes[i&1][103]
			run -= 2560
		}
		if run >= 64 {
			bits += codes[i&1][63+run/64]
		}
		bits += codes[i&1][run%64]
	}
	for len(bits)%8 != 0 {
		bits += "0"
	}
	p := make([]byte, len(bits)/8)
	for i, c := range bits {
		p[i/8] |= byte(c-'0') << (7 - i%8)
	}
	return p
}

func TestModifiedHuffmanRowsComeBack(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		width := 1 + r.IntN(6000)
		var coded []byte
		var want [][]byte
		for range 3 {
			row, left := make([]byte, (width+7)/8), width
			var runs []int
			for x := 0; left > 0; {
				n := min(left, r.IntN(1+r.IntN(4000)))
				if len(runs)&1 == 1 {
					for k := x; k < x+n; k++ {
						row[k/8] |= 0x80 >> (k % 8)
					}
				}
				runs, x, left = append(runs, n), x+n, left-n
			}
			coded, want = append(coded, packRuns(runs)...), append(want, row)
		}
		f := newFaxReader(bytes.NewReader(coded), width, 2, 0)
		for y, row := range want {
			got, err := f.next()
			if err != nil || !bytes.Equal(got, row) {
				t.Fatalf("width %d, row %d: %v", width, y, err)
			}
		}
		if _, err := f.next(); err == nil {
			t.Fatal("a row came behind the end")
		}
	}
}

// Codes printed in ITU-T T.4: a few of each table.
func TestRunCodesAreThoseOfTheRecommendation(t *testing.T) {
	for _, c := range []struct {
		colour int
		code   string
		run    uint16
	}{{0, "00110101", 0}, {0, "0111", 2}, {0, "11011", 64}, {0, "010011011", 1728}, {1, "0000110111", 0}, {1, "11", 2},
		{1, "0000001111", 64}, {1, "0000001100101", 1728}, {0, "00000001000", 1792}, {1, "000000011111", 2560}} {
		prefix := 0
		for i := range 13 {
			prefix <<= 1
			if i < len(c.code) {
				prefix |= int(c.code[i] - '0')
			}
		}
		got := runTables[c.colour][prefix]
		if got.run != c.run || int(got.bits) != len(c.code) {
			t.Errorf("%s: got %+v, want %d", c.code, got, c.run)
		}
	}
}
