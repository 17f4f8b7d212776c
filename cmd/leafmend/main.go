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
	"os/signal"
	"path/filepath"
	"runtime/debug"
	"syscall"

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
	root := a.Storage().RootURI().Path()
	opt := ui.Options{
		Version:  mendplan.Version,
		Sample:   *sample,
		Files:    flag.Args(),
		Recovery: filepath.Join(root, "recovery"),
		Locale:   ui.SystemLocale(),
	}
	opt.Keep(root)
	if !run(a, w, opt) {
		fmt.Fprintln(os.Stderr, "leafmend: the program made a mistake and had to end; the next start offers your work and tells more")
		os.Exit(1)
	}
}

// run shows the window until the user leaves, or the system asks the program
// to end. A panic that reaches the toolkit's loop is noted with the work in
// hand; false is returned.
func run(a fyne.App, w fyne.Window, opt ui.Options) (well bool) {
	var window *ui.Window
	defer func() {
		if what := recover(); what != nil {
			window.Crashed(what, string(debug.Stack()))
			return
		}
		window.Ended()
		well = true
	}()
	window = ui.Open(a, w, opt)
	a.Lifecycle().SetOnStarted(window.Started)
	closed := make(chan os.Signal, 1)
	signal.Notify(closed, syscall.SIGHUP) // the toolkit hears the others
	go func() {
		<-closed
		fyne.Do(a.Quit)
	}()
	w.ShowAndRun()
	return
}
