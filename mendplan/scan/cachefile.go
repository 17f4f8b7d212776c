package scan

import (
	"bufio"
	"encoding/json"
	"errors"
	"hash/crc32"
	"io"
	"os"
	"runtime"
	"sync"
	"sync/atomic"
)

// An entry of the cache is one line of JSON that describes its levels, then
// their bytes as they are in memory.

type levelsHead struct {
	Format  string      `json:"format"`
	Version int         `json:"version"`
	CRC     []uint32    `json:"crc32c"` // of each block of each plane in turn
	Levels  []levelHead `json:"levels"`
}

type levelHead struct {
	W       int  `json:"w"`
	H       int  `json:"h"`
	RGBA    int  `json:"rgba,omitempty"` // bytes
	Y       int  `json:"y,omitempty"`    // bytes
	C       int  `json:"c,omitempty"`    // bytes of cb, and as many of cr
	YStride int  `json:"y_stride,omitempty"`
	CSpan   int  `json:"c_span,omitempty"`
	SX      uint `json:"sx,omitempty"`
	SY      uint `json:"sy,omitempty"`
	PX      int  `json:"px,omitempty"`
	PY      int  `json:"py,omitempty"`
}

const levelsFormat = "leafmend scan levels"

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

var errEntry = errors.New("no sound cache entry")

// cacheBlock is the length of the parts read and checked side by side.
const cacheBlock = 4 << 20

// blocks returns the memory of the levels, in the order it is written, cut
// into blocks.
func blocks(levels []*raster) (all [][]byte) {
	for _, r := range levels {
		for _, p := range [][]byte{r.rgba, r.y, r.cb, r.cr} {
			for len(p) > 0 {
				n := min(len(p), cacheBlock)
				all = append(all, p[:n])
				p = p[n:]
			}
		}
	}
	return all
}

func writeLevels(w io.Writer, levels []*raster) error {
	head := levelsHead{Format: levelsFormat, Version: cacheVersion}
	for _, r := range levels {
		head.Levels = append(head.Levels, levelHead{r.w, r.h, len(r.rgba), len(r.y), len(r.cb), r.yStride, r.cSpan, r.sx, r.sy, r.px, r.py})
	}
	parts := blocks(levels)
	for _, p := range parts {
		head.CRC = append(head.CRC, crc32.Checksum(p, castagnoli))
	}
	line, err := json.Marshal(head)
	if err != nil {
		return err
	}
	if _, err := w.Write(append(line, '\n')); err != nil {
		return err
	}
	for _, p := range parts {
		if _, err := w.Write(p); err != nil {
			return err
		}
	}
	return nil
}

// readLevels reads an entry whose levels must be those of a picture of w × h.
func readLevels(path string, w, h int) ([]*raster, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	st, err := f.Stat()
	if err != nil {
		return nil, err
	}
	line, err := bufio.NewReaderSize(f, 1<<16).ReadSlice('\n')
	if err != nil {
		return nil, errEntry
	}
	var head levelsHead
	if json.Unmarshal(line, &head) != nil || !head.sound(st.Size()-int64(len(line)), w, h) {
		return nil, errEntry
	}
	levels := head.memory()
	if !fillBlocks(f, int64(len(line)), blocks(levels), head.CRC) {
		return nil, errEntry
	}
	return levels, nil
}

// memory makes the levels a sound description tells of.
func (h levelsHead) memory() (levels []*raster) {
	get := func(n int) []byte {
		if n == 0 {
			return nil
		}
		return buffers.get(n)
	}
	for _, l := range h.Levels {
		levels = append(levels, &raster{w: l.W, h: l.H, rgba: get(l.RGBA), y: get(l.Y), cb: get(l.C), cr: get(l.C),
			yStride: l.YStride, cSpan: l.CSpan, sx: l.SX, sy: l.SY, px: l.PX, py: l.PY})
	}
	return levels
}

// fillBlocks reads the blocks that stand at one another's end from offset at
// on, several at once, and tells whether all have their checksums.
func fillBlocks(r io.ReaderAt, at int64, parts [][]byte, sums []uint32) bool {
	if len(sums) != len(parts) {
		return false
	}
	starts := make([]int64, len(parts))
	for i, p := range parts {
		starts[i] = at
		at += int64(len(p))
	}
	var next, bad atomic.Int32
	work := func() {
		for i := next.Add(1) - 1; int(i) < len(parts); i = next.Add(1) - 1 {
			if _, err := r.ReadAt(parts[i], starts[i]); err != nil || crc32.Checksum(parts[i], castagnoli) != sums[i] {
				bad.Add(1)
			}
		}
	}
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) - 1 {
		wait.Add(1)
		go func() { defer wait.Done(); work() }()
	}
	work()
	wait.Wait()
	return bad.Load() == 0
}

// sound holds the description against the file's length and the picture.
func (h levelsHead) sound(size int64, w, ht int) bool {
	if h.Format != levelsFormat || h.Version != cacheVersion || len(h.Levels) == 0 {
		return false
	}
	total, first := int64(0), 0
	for first < 32 && (w>>first > h.Levels[0].W || ht>>first > h.Levels[0].H) {
		first++
	}
	for i, l := range h.Levels {
		up := 1<<(first+i) - 1
		if l.W != (w+up)>>(first+i) || l.H != (ht+up)>>(first+i) || !l.sound() {
			return false
		}
		total += int64(l.RGBA) + int64(l.Y) + 2*int64(l.C)
	}
	return total == size
}

// sound tells whether a level's planes are as long as its rows will reach.
func (l levelHead) sound() bool {
	if l.W < 1 || l.H < 1 || l.W > maxSide || l.H > maxSide || l.SX > 2 || l.SY > 2 ||
		l.PX < 0 || l.PX > 3 || l.PY < 0 || l.PY > 3 || min(l.RGBA, l.Y, l.C) < 0 {
		return false
	}
	if l.RGBA > 0 {
		return l.RGBA == 4*l.W*l.H && l.Y == 0 && l.C == 0
	}
	if l.YStride < l.W || l.Y < (l.H-1)*l.YStride+l.W {
		return false
	}
	cw, ch := (l.W+l.PX-1)>>l.SX+1, (l.H+l.PY-1)>>l.SY+1
	return l.C == 0 || l.CSpan >= cw && l.C >= (ch-1)*l.CSpan+cw
}
