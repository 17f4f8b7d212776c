package main

import (
	"context"
	"fmt"
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
	strength := c.flags.Float64("strength", scan.UsualStrength, "how hard the path clings to what it sees: 0 a straight line, 1 hardest")
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
	opt := scan.FollowOptions{}.WithStrength(*strength)
	if r, trusted := pic.Info().Best(); trusted {
		opt.PxPerMM = r.DPIX / 25.4
	}
	path := through[:1:1]
	for i := 1; i < len(through); i++ {
		leg := pic.FollowFrom(through[i-1], opt, through[i]).To(through[i])
		path = append(path, leg[1:]...)
	}
	if *asJSON {
		return false, printJSON(c.out, followed{rest[0], path})
	}
	for _, p := range path {
		fmt.Fprintf(c.out, "%.1f,%.1f\n", p.X, p.Y)
	}
	return false, nil
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
