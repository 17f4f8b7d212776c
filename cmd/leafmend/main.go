// Command leafmend is the desktop program: it plans the mending of
// publications of folded sheets with Japanese tissue.
//
// Usage:
//
//	leafmend [-sample] [JOB.leafmend] [SCAN…]
//
// A job is opened; scans, and folders of scans, become leaves. With -sample
// the invented sample job is opened.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"leafmend/assets"
	"leafmend/mendplan"
	"leafmend/ui"
)

func main() {
	sample := flag.Bool("sample", false, "open the sample job")
	size := flag.String("size", "1280x800", "size of the window when it opens, width x height")
	flag.Usage = func() {
		fmt.Fprintln(flag.CommandLine.Output(), "usage: leafmend [-sample] [-size WxH] [JOB.leafmend] [SCAN…]")
		flag.PrintDefaults()
	}
	flag.Parse()
	var width, height float32
	if n, err := fmt.Sscanf(*size, "%gx%g", &width, &height); n != 2 || err != nil || width < 200 || height < 200 {
		fmt.Fprintf(os.Stderr, "leafmend: “%s” is not a size: write it as 1280x800\n", *size)
		os.Exit(2)
	}
	a := app.NewWithID("leafmend")
	a.SetIcon(fyne.NewStaticResource("leafmend.svg", assets.AppIcon()))
	w := a.NewWindow("Leafmend")
	w.SetMaster()
	w.Resize(fyne.NewSize(width, height))
	ui.Open(a, w, ui.Options{
		Version:  mendplan.Version,
		Sample:   *sample,
		Files:    flag.Args(),
		Recovery: filepath.Join(a.Storage().RootURI().Path(), "recovery"),
	})
	w.ShowAndRun()
}
