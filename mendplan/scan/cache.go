package scan

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"sync"
	"time"
)

// Cache keeps the levels of pictures on disk, so that a scan opened before
// shows at once. Everything in it can be made again: its folder may be emptied
// or deleted at any time, also while the program runs. A damaged or outdated
// entry is passed over. A nil Cache is valid and keeps nothing.
//
// A picture has two entries. The coarse one, a twelfth of the picture's
// pixels, is kept long; the fine one, the pixels themselves, goes first when
// room runs short.
type Cache struct {
	dir   string
	limit int64
	mu    sync.Mutex // one writer at a time
	busy  sync.WaitGroup
}

const (
	cacheVersion  = 1
	coarseFrom    = 2         // first level of the coarse entry
	leastToCache  = 4_000_000 // pixels; smaller pictures decode quickly enough
	coarseExt     = ".coarse"
	fineExt       = ".fine"
	unfinishedExt = ".part"
)

// DefaultCacheBytes bounds the user's cache: the coarse levels of some hundred
// leaves of 70 megapixels, or the pixels of some thirty.
const DefaultCacheBytes = 4 << 30

// NewCache returns a cache in a folder, which is made when first needed. It
// holds at most limit bytes.
func NewCache(dir string, limit int64) *Cache { return &Cache{dir: dir, limit: limit} }

// UserCache returns the cache in the user's own cache folder, bounded by
// [DefaultCacheBytes].
func UserCache() (*Cache, error) {
	dir, err := os.UserCacheDir()
	if err != nil {
		return nil, fmt.Errorf("cache of scans: %w", err)
	}
	return NewCache(filepath.Join(dir, "leafmend", "scans"), DefaultCacheBytes), nil
}

// Wait returns when nothing is being written any more.
func (c *Cache) Wait() {
	if c != nil {
		c.busy.Wait()
	}
}

// Clear removes all entries.
func (c *Cache) Clear() error {
	if c == nil {
		return nil
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	for _, e := range c.entries() {
		if err := os.Remove(e.path); err != nil && !os.IsNotExist(err) {
			return fmt.Errorf("clearing the cache of scans: %w", err)
		}
	}
	return nil
}

// key names a page of a file as it is now: another size or time of change
// makes another key.
func (c *Cache) key(path string, page int) (string, error) {
	full, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	st, err := os.Stat(full)
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(fmt.Appendf(nil, "%d\x00%s\x00%d\x00%d\x00%d", cacheVersion, full, st.Size(), st.ModTime().UnixNano(), page))
	return hex.EncodeToString(sum[:16]), nil
}

// load reads an entry's levels; nil when there is none that is sound. The
// entry counts as used now.
func (c *Cache) load(key, ext string, w, h int) []*raster {
	path := filepath.Join(c.dir, key+ext)
	levels, err := readLevels(path, w, h)
	if err != nil {
		return nil
	}
	now := time.Now()
	_ = os.Chtimes(path, now, now) // only the order of removal hangs on it
	return levels
}

// store writes both entries of a picture in the background. free is called
// when the levels are no longer needed.
func (c *Cache) store(key string, levels []*raster, withCoarse bool, free func()) {
	c.busy.Add(1)
	go func() {
		defer c.busy.Done()
		defer free()
		c.mu.Lock()
		defer c.mu.Unlock()
		// A full or read-only disk costs speed, not work: errors are let go.
		if withCoarse && c.write(key+coarseExt, levels[coarseFrom:]) != nil {
			return
		}
		if levels[0].bytes() <= c.limit/4 {
			_ = c.write(key+fineExt, levels[:1])
		}
		c.trim()
	}()
}

// write puts an entry in its place by a temporary file.
func (c *Cache) write(name string, levels []*raster) error {
	if err := os.MkdirAll(c.dir, 0o700); err != nil {
		return err
	}
	f, err := os.CreateTemp(c.dir, "*"+unfinishedExt)
	if err != nil {
		return err
	}
	err = writeLevels(f, levels)
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = os.Rename(f.Name(), filepath.Join(c.dir, name))
	}
	if err != nil {
		_ = os.Remove(f.Name())
	}
	return err
}

// entry is a file of the cache.
type entry struct {
	path string
	size int64
	used time.Time
}

// entries lists the cache's own files, in the order they should go: what was
// left unfinished, then fine ones, then coarse ones, oldest first.
func (c *Cache) entries() []entry {
	files, err := os.ReadDir(c.dir)
	if err != nil {
		return nil
	}
	var all []entry
	for _, f := range files {
		st, err := f.Info()
		if err != nil || !st.Mode().IsRegular() || rank(f.Name()) < 0 {
			continue
		}
		all = append(all, entry{filepath.Join(c.dir, f.Name()), st.Size(), st.ModTime()})
	}
	sort.Slice(all, func(i, k int) bool {
		if a, b := rank(all[i].path), rank(all[k].path); a != b {
			return a < b
		}
		return all[i].used.Before(all[k].used)
	})
	return all
}

func rank(name string) int {
	for i, ext := range []string{unfinishedExt, fineExt, coarseExt} {
		if strings.HasSuffix(name, ext) {
			return i
		}
	}
	return -1
}

// trim removes entries until the cache keeps its limit, and what another
// program left unfinished an hour ago.
func (c *Cache) trim() {
	all := c.entries()
	total := int64(0)
	for _, e := range all {
		total += e.size
	}
	for _, e := range all {
		abandoned := rank(e.path) == 0 && time.Since(e.used) > time.Hour
		if abandoned || total > c.limit && rank(e.path) > 0 {
			if os.Remove(e.path) == nil {
				total -= e.size
			}
		}
	}
}
