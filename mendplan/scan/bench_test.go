package scan_test

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/jpeg"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"leafmend/mendplan/scan"
)

// A leaf of 70 megapixels, as a flatbed gives at 600 ppi: paper with grain
// and lines of print. It is drawn once a run and never kept.
const leafW, leafH = 7000, 10000

var bigLeaf = sync.OnceValue(func() []byte {
	m := image.NewYCbCr(image.Rect(0, 0, leafW, leafH), image.YCbCrSubsampleRatio420)
	r := rand.New(rand.NewPCG(1, 2))
	for y := range leafH {
		row := m.Y[y*m.YStride:][:leafW]
		for x := range row {
			v := 205 + int(r.Uint32()%17) - 8
			if y%140 < 60 && x%73 < 40 && (x/73+y/140)%7 != 0 {
				v -= 130
			}
			row[x] = byte(v)
		}
	}
	for i := range m.Cb {
		m.Cb[i], m.Cr[i] = byte(116+r.Uint32()%3), byte(134+r.Uint32()%3)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 92}); err != nil {
		panic(err)
	}
	return b.Bytes()
})

func bigPath(b *testing.B) string { return write(b, "leaf.jpg", bigLeaf()) }

// openSharp opens a picture and waits until all of it is there.
func openSharp(b *testing.B, path string, cache *scan.Cache) *scan.Picture {
	b.Helper()
	p, err := scan.Open(context.Background(), path, scan.OpenOptions{Cache: cache})
	if err != nil {
		b.Fatal(err)
	}
	<-p.Sharp()
	return p
}

// BenchmarkFirstOpening70MP reports the time to the first frame as a multiple
// of what the standard decoder alone takes, measured in turn in the same run.
func BenchmarkFirstOpening70MP(b *testing.B) {
	path := bigPath(b)
	frame := image.NewRGBA(image.Rect(0, 0, 1920, 1080))
	var alone, ours time.Duration
	for b.Loop() {
		start := time.Now()
		f, err := os.Open(path)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := jpeg.Decode(f); err != nil {
			b.Fatal(err)
		}
		f.Close()
		alone += time.Since(start)
		start = time.Now()
		p, err := scan.Open(context.Background(), path, scan.OpenOptions{})
		if err != nil {
			b.Fatal(err)
		}
		p.Paint(frame, scan.Fit(p.Bounds(), 1920, 1080), scan.Moving)
		ours += time.Since(start)
		p.Close()
	}
	b.ReportMetric(float64(ours)/float64(alone), "×decoder")
	b.ReportMetric(float64(ours.Milliseconds())/float64(b.N), "ms/open")
}

// BenchmarkSecondOpening70MP reports the time of the second opening to its
// first frame, and to the whole picture at full size, as parts of the first.
func BenchmarkSecondOpening70MP(b *testing.B) {
	path := bigPath(b)
	cache := scan.NewCache(b.TempDir(), 4<<30)
	frame := image.NewRGBA(image.Rect(0, 0, 1920, 1080))
	start := time.Now()
	openSharp(b, path, cache).Close()
	first := time.Since(start)
	cache.Wait()
	var seen, sharp time.Duration
	for b.Loop() {
		start := time.Now()
		p, err := scan.Open(context.Background(), path, scan.OpenOptions{Cache: cache})
		if err != nil {
			b.Fatal(err)
		}
		p.Paint(frame, scan.Fit(p.Bounds(), 1920, 1080), scan.Moving)
		seen += time.Since(start)
		<-p.Sharp()
		sharp += time.Since(start)
		p.Close()
	}
	n := float64(b.N)
	b.ReportMetric(float64(seen)/n/float64(first), "×first")
	b.ReportMetric(float64(sharp)/n/float64(first), "×first-sharp")
	b.ReportMetric(float64(seen.Microseconds())/1000/n, "ms/seen")
	b.ReportMetric(float64(sharp.Microseconds())/1000/n, "ms/sharp")
}

// BenchmarkSixtyLeaves70MP opens sixty leaves one after another, paints each
// at fit and at full size, and reports what the process holds at the end and
// at most. The drawn leaf itself is part of that, with less than 20 MB.
func BenchmarkSixtyLeaves70MP(b *testing.B) {
	path := bigPath(b)
	cache := scan.NewCache(b.TempDir(), 1<<30)
	frame := image.NewRGBA(image.Rect(0, 0, 1920, 1080))
	shelf := scan.NewShelf(400 << 20)
	for b.Loop() {
		for i := range 60 {
			name := path + strconv.Itoa(i)
			if err := os.Link(path, name); err != nil && !os.IsExist(err) {
				b.Fatal(err)
			}
			p, err := shelf.Open(context.Background(), name, scan.OpenOptions{Cache: cache})
			if err != nil {
				b.Fatal(err)
			}
			p.Paint(frame, scan.Fit(p.Bounds(), 1920, 1080), scan.Best)
			p.Paint(frame, scan.View{Scale: 1, X: 100, Y: 100}, scan.Best)
		}
		cache.Wait()
		shelf.Close()
	}
	b.ReportMetric(status(b, "VmRSS"), "MB-resident")
	b.ReportMetric(status(b, "VmHWM"), "MB-peak")
}

// status reads a line of the kernel's account of this process, in MB.
func status(b *testing.B, name string) float64 {
	p, err := os.ReadFile("/proc/self/status")
	if err != nil {
		b.Log("memory is only measured where /proc/self/status is")
		return 0
	}
	for line := range strings.Lines(string(p)) {
		if rest, ok := strings.CutPrefix(line, name+":"); ok {
			kb, _ := strconv.Atoi(strings.Fields(rest)[0])
			return float64(kb) / 1024
		}
	}
	return 0
}

// BenchmarkFrame70MP paints frames of 1920 × 1080, panning a little each, and
// reports processor time, all goroutines together.
func BenchmarkFrame70MP(b *testing.B) {
	p := openSharp(b, bigPath(b), nil)
	defer p.Close()
	frame := image.NewRGBA(image.Rect(0, 0, 1920, 1080))
	for _, c := range []struct {
		name    string
		scale   float64
		quality scan.Quality
	}{
		{"moving/fit", 0.108, scan.Moving}, {"moving/0.3", 0.3, scan.Moving}, {"moving/0.6", 0.6, scan.Moving}, {"moving/0.92", 0.92, scan.Moving},
		{"moving/1", 1, scan.Moving}, {"moving/1.3", 1.3, scan.Moving}, {"moving/4", 4, scan.Moving},
		{"best/fit", 0.108, scan.Best}, {"best/0.3", 0.3, scan.Best}, {"best/0.6", 0.6, scan.Best}, {"best/1", 1, scan.Best},
		{"best/1.3", 1.3, scan.Best}, {"best/4", 4, scan.Best},
	} {
		b.Run(c.name, func(b *testing.B) {
			cpu, n := processorTime(), 0
			for b.Loop() {
				n++
				p.Paint(frame, scan.View{Scale: c.scale, X: 300 + 3.3*float64(n%100), Y: 200 + 1.7*float64(n%100), Around: color.RGBA{A: 255}}, c.quality)
			}
			b.ReportMetric(float64((processorTime()-cpu).Microseconds())/1000/float64(n), "cpu-ms/frame")
		})
	}
}

func BenchmarkInspect(b *testing.B) {
	path := bigPath(b)
	for b.Loop() {
		if _, err := scan.Inspect(path); err != nil {
			b.Fatal(err)
		}
	}
}
