package ui

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// choosing says what a chooser is for.
type choosing struct {
	title  string
	verb   string   // on the button that ends it
	suffix []string // of the files shown, lower case; nil shows all
	many   bool     // several files may be chosen
	folder bool     // a folder is wanted
	name   string   // of a file to write; "" to read
}

// chooser is the program's own way to files: a path one can type, places, a
// list in which several files can be ticked. Unlike the toolkit's it opens no
// file by itself, so nothing is emptied before it is written.
type chooser struct {
	w       *Window
	what    choosing
	then    func(paths []string)
	dir     string
	turn    int // counts folders asked for
	entries []os.DirEntry
	folders map[string]bool // those of the entries that are folders or lead to one
	chosen  []string        // names, in the order of ticking
	path    *dialogEntry
	name    *dialogEntry
	list    *keyList
	note    *widget.Label
	dialog  *dialog.CustomDialog
}

// choose asks for files, a folder or a name to write to, and calls then with
// full paths unless the user leaves.
func (w *Window) choose(what choosing, then func(paths []string)) {
	c := &chooser{w: w, what: what, then: then, note: widget.NewLabel("")}
	c.note.Truncation = fyne.TextTruncateEllipsis
	c.path = w.newEntry()
	c.path.OnSubmitted = c.typedPath
	c.list = newList(func() int { return len(c.entries) }, c.newRow, c.fillRow)
	c.list.OnSelected = c.pressed
	up := newButtonWithIcon("", theme.MoveUpIcon(), func() { c.enter(filepath.Dir(c.dir)) })
	top := container.NewBorder(nil, nil, up, nil, c.path)
	var bottom fyne.CanvasObject = c.note
	if what.name != "" {
		c.name = w.newEntry()
		c.name.SetText(what.name)
		c.name.OnSubmitted = func(string) { c.finish() }
		bottom = container.NewVBox(labelled(t("Name"), c.name), c.note)
	}
	body := container.NewBorder(top, bottom, c.places(), nil, c.list)
	c.dialog = dialog.NewCustomWithoutButtons(what.title, body, w.win)
	c.dialog.SetButtons([]fyne.CanvasObject{w.answerButton(t("Cancel"), widget.MediumImportance, func() { c.dialog.Hide() }),
		w.answerButton(what.verb, widget.HighImportance, c.finish)})
	size := w.win.Canvas().Size()
	c.dialog.Resize(fyne.NewSize(min(780, size.Width-40), min(560, size.Height-40)))
	w.present(c.dialog, nil)
	c.enter(w.startFolder())
	if c.name != nil {
		w.win.Canvas().Focus(c.name)
	} else {
		w.win.Canvas().Focus(c.path)
	}
}

// startFolder is the folder of the job, else of its scans, else the last used,
// else home.
func (w *Window) startFolder() string {
	home, _ := os.UserHomeDir()
	scans, own := "", ""
	if p := w.session.Path(); p != "" {
		own = filepath.Dir(p)
	}
	for _, leaf := range w.session.Job().Leaves {
		if leaf.Front.Scan.Present() {
			scans = filepath.Dir(w.session.scanPath(leaf.Front.Scan))
			break
		}
	}
	for _, dir := range []string{own, scans, w.settings.Folder(), home} {
		if isFolder(dir) {
			return dir
		}
	}
	return string(filepath.Separator)
}

func (c *chooser) places() fyne.CanvasObject {
	box := container.NewVBox()
	home, _ := os.UserHomeDir()
	add := func(words, dir string) {
		if isFolder(dir) {
			b := newButton(words, func() { c.enter(dir) })
			b.Alignment, b.Importance = widget.ButtonAlignLeading, widget.LowImportance
			box.Add(b)
		}
	}
	if p := c.w.session.Path(); p != "" {
		add(t("This job's folder"), filepath.Dir(p))
	}
	add(t("Last folder"), c.w.settings.Folder())
	add(t("Home"), home)
	for _, n := range []string{"Desktop", "Documents", "Pictures", "Downloads"} {
		add(t(n), filepath.Join(home, n))
	}
	add(t("Computer"), string(filepath.Separator))
	return box
}

// enter shows a folder. It is read aside, since a network folder may not
// answer; of several asked for, the last is shown.
func (c *chooser) enter(dir string) {
	c.turn++
	turn := c.turn
	var list []os.DirEntry
	folders := map[string]bool{}
	c.note.SetText(t("Reading the folder…"))
	c.w.work.start(func() (err error) {
		list, err = os.ReadDir(dir)
		for _, e := range list {
			folders[e.Name()] = leadsToFolder(dir, e)
		}
		return err
	}, func(err error) {
		if turn != c.turn {
			return
		}
		if err != nil {
			c.note.SetText(t("This folder cannot be read: choose another."))
			return
		}
		c.folders = folders
		c.show(dir, list)
	})
}

// show lists what a folder holds, folders first.
func (c *chooser) show(dir string, list []os.DirEntry) {
	c.dir, c.chosen = dir, nil
	c.entries = slices.DeleteFunc(list, func(e os.DirEntry) bool {
		return strings.HasPrefix(e.Name(), ".") || !c.isDir(e) && !c.suits(e.Name())
	})
	slices.SortStableFunc(c.entries, func(a, b os.DirEntry) int {
		if da, db := c.isDir(a), c.isDir(b); da != db {
			if da {
				return -1
			}
			return 1
		}
		return strings.Compare(strings.ToLower(a.Name()), strings.ToLower(b.Name()))
	})
	c.path.SetText(dir)
	c.list.UnselectAll()
	c.list.Refresh()
	c.list.ScrollToTop()
	c.tell()
}

func (c *chooser) isDir(e os.DirEntry) bool { return c.folders[e.Name()] }

func (c *chooser) suits(name string) bool {
	if c.what.folder {
		return len(c.what.suffix) > 0 && hasSuffix(name, c.what.suffix)
	}
	return c.what.suffix == nil || hasSuffix(name, c.what.suffix)
}

func hasSuffix(name string, among []string) bool {
	return slices.Contains(among, strings.ToLower(filepath.Ext(name)))
}

func (c *chooser) newRow() fyne.CanvasObject {
	size := widget.NewLabel("")
	size.Importance = widget.LowImportance
	return container.NewBorder(nil, nil, widget.NewIcon(nil), size, widget.NewLabel(""))
}

func (c *chooser) fillRow(i widget.ListItemID, o fyne.CanvasObject) {
	if i >= len(c.entries) {
		return
	}
	e := c.entries[i]
	row := o.(*fyne.Container)
	name, mark, size := row.Objects[0].(*widget.Label), row.Objects[1].(*widget.Icon), row.Objects[2].(*widget.Label)
	name.Truncation = fyne.TextTruncateEllipsis
	name.SetText(e.Name())
	size.SetText("")
	switch {
	case c.isDir(e):
		mark.SetResource(theme.FolderIcon())
	case slices.Contains(c.chosen, e.Name()):
		mark.SetResource(theme.ConfirmIcon())
	default:
		mark.SetResource(theme.FileIcon())
	}
	if info, err := e.Info(); err == nil && !c.isDir(e) {
		size.SetText(sizeWords(info.Size()) + "   " + info.ModTime().Format("2006-01-02"))
	}
}

// sizeWords is a size in bytes as people read it: small files in kilobytes,
// since a job is not a tenth of a megabyte.
func sizeWords(bytes int64) string {
	if bytes < 1e5 {
		return figures("%.0f kB", math.Ceil(float64(bytes)/1e3))
	}
	return figures("%.1f MB", float64(bytes)/1e6)
}

// pressed enters a folder, or ticks a file.
func (c *chooser) pressed(i widget.ListItemID) {
	c.list.UnselectAll()
	if i >= len(c.entries) {
		return
	}
	e := c.entries[i]
	switch k := slices.Index(c.chosen, e.Name()); {
	case c.isDir(e):
		c.enter(filepath.Join(c.dir, e.Name()))
		return
	case c.what.folder:
	case k >= 0:
		c.chosen = slices.Delete(c.chosen, k, k+1)
	case c.what.many:
		c.chosen = append(c.chosen, e.Name())
	default:
		c.chosen = []string{e.Name()}
	}
	if c.name != nil && len(c.chosen) == 1 {
		c.name.SetText(c.chosen[0])
	}
	c.list.Refresh()
	c.tell()
}

// typedPath goes to a folder that was typed, or takes a file.
func (c *chooser) typedPath(text string) {
	var st os.FileInfo
	c.w.work.start(func() (err error) {
		st, err = os.Stat(text)
		return err
	}, func(err error) {
		switch {
		case err != nil:
			c.note.SetText(t("There is nothing at this path."))
		case st.IsDir():
			c.enter(filepath.Clean(text))
		case !c.what.folder && c.what.name == "":
			c.end([]string{text})
		}
	})
}

// tell says what is chosen so far.
func (c *chooser) tell() {
	files := 0
	for _, e := range c.entries {
		if !c.isDir(e) {
			files++
		}
	}
	switch {
	case c.what.folder:
		c.note.SetText(t("%d scans in this folder.", files))
	case c.what.many:
		c.note.SetText(t("%d chosen. Press files to choose them; press again to let go.", len(c.chosen)))
	default:
		c.note.SetText(strings.Join(c.chosen, ", "))
	}
}

// finish ends the chooser with what is chosen.
func (c *chooser) finish() {
	switch {
	case c.what.folder:
		c.end([]string{c.dir})
	case c.name != nil:
		c.finishName()
	case len(c.chosen) > 0:
		paths := make([]string, len(c.chosen))
		for i, n := range c.chosen {
			paths[i] = filepath.Join(c.dir, n)
		}
		c.end(paths)
	default:
		c.typedPath(c.path.Text)
	}
}

// finishName takes the name typed, with the suffix if it lacks it, and asks
// before a file is replaced.
func (c *chooser) finishName() {
	name := strings.TrimSpace(c.name.Text)
	if name == "" || strings.ContainsRune(name, filepath.Separator) {
		c.note.SetText(t("Type a name for the file."))
		return
	}
	if len(c.what.suffix) > 0 && !hasSuffix(name, c.what.suffix) {
		name += c.what.suffix[0]
	}
	path := filepath.Join(c.dir, name)
	c.w.work.start(func() error {
		_, err := os.Stat(path)
		return err
	}, func(err error) {
		if err != nil {
			c.end([]string{path})
			return
		}
		c.w.confirm(t("Replace the file?"), t("Replace"), t("Keep"), widget.NewLabel(t("%s is there already.", name)), fyne.NewSize(380, 0),
			func(yes bool) {
				if yes {
					c.end([]string{path})
				}
			})
	})
}

func (c *chooser) end(paths []string) {
	dir := paths[0]
	if !c.what.folder {
		dir = filepath.Dir(dir)
	}
	c.w.settings.SetFolder(dir)
	c.dialog.Hide()
	c.then(paths)
}
