package scan

import (
	"context"

	"leafmend/mendplan/phrase"
)

// openCoarse returns a picture of the coarse levels the cache had. The finer
// ones come from the cache too when they are still there, else the file is
// decoded again.
func openCoarse(info Info, coarse []*raster, key string, opt OpenOptions) *Picture {
	at := make([]*raster, levelCount(info.Width, info.Height))
	copy(at[coarseFrom:], coarse)
	p := newPicture(info, at)
	ctx, cancel := context.WithCancel(context.Background())
	p.cancel = cancel
	p.load = func() {
		defer close(p.sharp)
		base, cached, err := fineLevel(ctx, info, key, opt)
		if err != nil {
			p.fail(ctx, err)
			return
		}
		l := p.complete([]*raster{base, halve(base, buffers.get)})
		if l != nil && !cached {
			opt.Cache.store(key, l.at, false, l.release)
		} else {
			l.release()
		}
	}
	if !opt.Lazy {
		p.wantFine()
	}
	return p
}

// fineLevel reads the full picture from the cache or from its file.
func fineLevel(ctx context.Context, info Info, key string, opt OpenOptions) (base *raster, cached bool, err error) {
	if ctx.Err() != nil {
		return nil, false, ctx.Err()
	}
	if fine := opt.Cache.load(key, fineExt, info.Width, info.Height); len(fine) == 1 && fine[0].w == info.Width && fine[0].h == info.Height {
		return fine[0], true, nil
	}
	f, err := openFile(info.Path)
	if err != nil {
		return nil, false, err
	}
	defer f.Close()
	h, err := readHeader(f.blob, opt.Page)
	if err == nil && (h.Width != info.Width || h.Height != info.Height) {
		err = &Refusal{What: phrase.Of("the file was changed while it was open"), Remedy: phrase.Of("open it again")}
	}
	if err == nil {
		opt.Progress = nil // Open has returned; nobody waits for it
		base, err = h.decode(ctx, f.blob, opt)
	}
	if err != nil {
		return nil, false, refuse(info.Path, err)
	}
	return base, false, nil
}

// fail notes why the finer levels are missing, unless the picture was closed.
func (p *Picture) fail(ctx context.Context, err error) {
	if ctx.Err() != nil {
		return
	}
	p.mu.Lock()
	p.err = err
	p.mu.Unlock()
}

// complete puts the finer levels in their place and returns the whole, held
// for the caller; nil when the picture was closed meanwhile.
func (p *Picture) complete(fine []*raster) *levels {
	p.mu.Lock()
	defer p.mu.Unlock()
	old := p.levels
	if old == nil {
		return nil
	}
	whole := &levels{at: append(fine, old.at[len(fine):]...), from: len(fine), coarse: old}
	whole.users.Store(2) // the picture and the caller
	p.levels = whole     // the picture's hold on old passes to whole
	return whole
}
