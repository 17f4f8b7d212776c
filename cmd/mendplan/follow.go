package main

import (
	"context"
	"fmt"
	"image"
	"math"
	"strconv"
	"strings"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
)

// followed is a path along a tear, as JSON.
type followed struct {
	File     string    `json:"file"`
	PointsPx []geom.Pt `json:"points"`
}

// follow prints the path along a tear between the points given.
func follow(ctx context.Context, c call) (bool, error) {
	asJSON := c.flags.Bool("json", false, "print JSON")
	page := c.flags.Int("page", 1, "which picture of a file with several, from 1")
	strength := c.flags.Float64("strength", 0, "how hard the path clings to what it sees, up to 1; 0 is the usual strength")
	rest, err := c.parse()
	if err != nil {
		return false, err
	}
	if !(*strength >= 0 && *strength <= 1) {
		return false, usagef("-strength must lie between 0 and 1")
	}
	if len(rest) < 3 {
		return false, usagef("give a scan and at least two points X,Y")
	}
	var through []geom.Pt
	for _, s := range rest[1:] {
		p, err := parsePoint(s)
		if err != nil {
			return false, err
		}
		through = append(through, p)
	}
	pic, err := scan.Open(ctx, rest[0], scan.OpenOptions{Page: *page - 1})
	if err != nil {
		return false, err
	}
	defer pic.Close()
	for i, p := range through {
		if b := pic.Bounds(); p.X < 0 || p.Y < 0 || p.X > float64(b.Dx()) || p.Y > float64(b.Dy()) {
			return false, usagef("point %d, %s, lies outside the picture of %d × %d pixels", i+1, rest[1+i], b.Dx(), b.Dy())
		}
	}
	opt := scan.FollowOptions{Strength: *strength}
	if r, trusted := pic.Info().Best(); trusted {
		opt.PxPerMM = r.DPIX / 25.4
	}
	path := through[:1:1]
	for i := 1; i < len(through); i++ {
		path = append(path, followOne(pic, through[i-1], through[i], opt)[1:]...)
	}
	if *asJSON {
		return false, printJSON(c.out, followed{rest[0], path})
	}
	for _, p := range path {
		fmt.Fprintf(c.out, "%.1f,%.1f\n", p.X, p.Y)
	}
	return false, nil
}

// mostWindow bounds the pixels looked at between two points; a longer stretch
// is followed on a coarser level.
const mostWindow = 3 << 20

// followOne follows the tear from a to b on the stretch of the scan around
// them. The result begins at a and ends at b.
func followOne(pic *scan.Picture, a, b geom.Pt, opt scan.FollowOptions) []geom.Pt {
	room := 60 + 0.4*a.Dist(b)
	for level := 0; ; level++ {
		per := float64(pic.Level(level).Per)
		r := image.Rect(int((min(a.X, b.X)-room)/per), int((min(a.Y, b.Y)-room)/per), int((max(a.X, b.X)+room)/per)+1, int((max(a.Y, b.Y)+room)/per)+1)
		if r.Dx()*r.Dy() > mostWindow && level+1 < pic.NumLevels() {
			continue
		}
		img := pic.Region(r, level)
		origin := geom.Pt{X: float64(img.Rect.Min.X) * per, Y: float64(img.Rect.Min.Y) * per}
		f := scan.NewFollower(img, origin, per, opt)
		f.From(a)
		return f.To(b)
	}
}

func parsePoint(s string) (geom.Pt, error) {
	xs, ys, ok := strings.Cut(s, ",")
	x, err1 := strconv.ParseFloat(xs, 64)
	y, err2 := strconv.ParseFloat(ys, 64)
	if !ok || err1 != nil || err2 != nil || math.IsNaN(x+y) || math.IsInf(x+y, 0) {
		return geom.Pt{}, usagef("%q is not a point: write X,Y in pixels, such as 120,88", s)
	}
	return geom.Pt{X: x, Y: y}, nil
}
