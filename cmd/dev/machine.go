package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
)

// need is something the machine must have.
type need struct {
	what string      // for the user
	has  func() bool // whether it is there
	deb  []string    // Debian and Ubuntu packages that bring it
	rpm  []string    // Fedora packages
	arch []string    // Arch packages
}

// headers the toolkit's window code includes, found by building it on a bare
// Debian 12 and adding packages until it built.
const windowHeaders = `
#include <GL/gl.h>
#include <X11/Xlib.h>
#include <X11/Xcursor/Xcursor.h>
#include <X11/extensions/Xrandr.h>
#include <X11/extensions/Xinerama.h>
#include <X11/extensions/XInput2.h>
#include <X11/extensions/xf86vmode.h>
`

var (
	compiler = need{"a C compiler", hasCompiler,
		[]string{"gcc", "libc6-dev"}, []string{"gcc"}, []string{"gcc"}}
	pkgConfig = need{"pkg-config", onPath("pkg-config"),
		[]string{"pkg-config"}, []string{"pkgconf-pkg-config"}, []string{"pkgconf"}}
	graphics = need{"OpenGL and X11 headers", hasWindowHeaders,
		[]string{"libgl-dev", "libx11-dev", "libxcursor-dev", "libxrandr-dev", "libxinerama-dev", "libxi-dev", "libxxf86vm-dev"},
		[]string{"mesa-libGL-devel", "libX11-devel", "libXcursor-devel", "libXrandr-devel", "libXinerama-devel", "libXi-devel", "libXxf86vm-devel"},
		[]string{"mesa", "libx11", "libxcursor", "libxrandr", "libxinerama", "libxi", "libxxf86vm"}}
	virtualDisplay = need{"a virtual display", onPath("Xvfb"),
		[]string{"xvfb"}, []string{"xorg-x11-server-Xvfb"}, []string{"xorg-server-xvfb"}}
	softwareGL = need{"OpenGL in software", hasSoftwareGL,
		[]string{"libgl1-mesa-dri"}, []string{"mesa-dri-drivers"}, []string{"mesa"}}
	pointer = need{"xdotool, to press keys and buttons in the window test", onPath("xdotool"),
		[]string{"xdotool"}, []string{"xdotool"}, []string{"xdotool"}}
	pdfReader = need{"pdfinfo and pdftoppm, to read printed pages back in tests", onPath("pdftoppm"),
		[]string{"poppler-utils"}, []string{"poppler-utils"}, []string{"poppler"}}
	tiffTools = need{"tiffcp and tiffset, to write TIFF files in tests", onPath("tiffcp"),
		[]string{"libtiff-tools"}, []string{"libtiff-tools"}, []string{"libtiff"}}
	pictureTools = need{"ImageMagick, to write pictures of many kinds in tests", onPath("convert"),
		[]string{"imagemagick"}, []string{"ImageMagick"}, []string{"imagemagick"}}
	watcher = need{"strace, to watch in a test that the window opens no connection", onPath("strace"),
		[]string{"strace"}, []string{"strace"}, []string{"strace"}}
	exifTools = need{"exiftool, to write metadata in tests", onPath("exiftool"),
		[]string{"libimage-exiftool-perl"}, []string{"perl-Image-ExifTool"}, []string{"perl-image-exiftool"}}
)

var (
	forBuild     = []need{compiler, pkgConfig, graphics}
	forHiddenRun = append(slices.Clone(forBuild), virtualDisplay, softwareGL)
	forTest      = append(slices.Clone(forHiddenRun), pointer, watcher, pdfReader, tiffTools, pictureTools, exifTools)
)

func onPath(name string) func() bool {
	return func() bool { _, err := exec.LookPath(name); return err == nil }
}

// hasCompiler tries to build a program, since a compiler without the C
// library's headers is of no use.
func hasCompiler() bool {
	return compiles("#include <stdio.h>\nint main(void) { return 0; }\n", "-o", os.DevNull)
}

// hasWindowHeaders runs the preprocessor over the headers. On other systems
// than Linux and the BSDs they come with the system.
func hasWindowHeaders() bool {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		return true
	}
	return compiles(windowHeaders, "-E", "-o", os.DevNull)
}

func compiles(source string, args ...string) bool {
	cc := os.Getenv("CC")
	if cc == "" {
		cc = "gcc"
	}
	if _, err := exec.LookPath(cc); err != nil {
		cc = "cc"
	}
	cmd := exec.Command(cc, append([]string{"-x", "c", "-"}, args...)...)
	cmd.Stdin = strings.NewReader(source)
	return cmd.Run() == nil
}

func hasSoftwareGL() bool {
	for _, pattern := range []string{"/usr/lib/*/dri/swrast_dri.so", "/usr/lib/dri/swrast_dri.so", "/usr/lib64/dri/swrast_dri.so", "/usr/lib/*/libgallium-*.so", "/usr/lib64/libgallium-*.so", "/usr/lib/libgallium-*.so"} {
		if m, _ := filepath.Glob(pattern); len(m) > 0 {
			return true
		}
	}
	return false
}

// setUp makes the machine ready: what is missing is named, then installed
// where that is allowed; otherwise the error holds the line to type.
func setUp(needs []need) error {
	var missing []need
	for _, n := range needs {
		if !n.has() {
			missing = append(missing, n)
		}
	}
	if len(missing) == 0 {
		return nil
	}
	for _, n := range missing {
		fmt.Println("missing:", n.what)
	}
	steps := installSteps(missing)
	if steps == nil {
		return errors.New(adviceFor(runtime.GOOS))
	}
	line := oneLine(steps)
	prefix, ok := asRoot()
	if !ok {
		return fmt.Errorf("to go on, type this as root and start again:\n  %s", line)
	}
	fmt.Println("installing with:", line)
	for _, step := range steps {
		if err := show(exec.Command(append(slices.Clone(prefix), step...)[0], append(slices.Clone(prefix), step...)[1:]...)); err != nil {
			return fmt.Errorf("installing failed (%w); type this yourself and start again:\n  %s", err, line)
		}
	}
	for _, n := range missing {
		if !n.has() {
			return fmt.Errorf("%s is still missing after installing; look at the messages above", n.what)
		}
	}
	return nil
}

// asRoot returns what to put before a command to run it as root.
func asRoot() (prefix []string, ok bool) {
	if os.Geteuid() == 0 {
		return nil, true
	}
	if _, err := exec.LookPath("sudo"); err != nil {
		return nil, false
	}
	if in, err := os.Stdin.Stat(); err == nil && in.Mode()&os.ModeCharDevice != 0 {
		return []string{"sudo"}, true // it can ask for the password
	}
	if exec.Command("sudo", "-n", "true").Run() != nil {
		return nil, false
	}
	return []string{"sudo", "-n"}, true
}

// installSteps returns the commands of the package manager found, or nil.
func installSteps(missing []need) [][]string {
	var deb, rpm, arch []string
	for _, n := range missing {
		deb, rpm, arch = append(deb, n.deb...), append(rpm, n.rpm...), append(arch, n.arch...)
	}
	switch {
	case onPath("apt-get")():
		return [][]string{{"apt-get", "update", "-q"},
			append([]string{"env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "install", "-q", "-y", "--no-install-recommends"}, deb...)}
	case onPath("dnf")():
		return [][]string{append([]string{"dnf", "install", "-y"}, rpm...)}
	case onPath("pacman")():
		return [][]string{append([]string{"pacman", "-S", "--needed", "--noconfirm"}, arch...)}
	}
	return nil
}

func adviceFor(system string) string {
	switch system {
	case "darwin":
		return "install the command line tools with: xcode-select --install"
	case "windows":
		return "install a C compiler (a MinGW-w64 gcc on the PATH) and start again"
	}
	return "no known package manager found: install a C compiler, pkg-config, and the development files of OpenGL, X11, Xcursor, Xrandr, Xinerama, Xi and Xxf86vm"
}

func oneLine(steps [][]string) string {
	lines := make([]string, len(steps))
	for i, s := range steps {
		lines[i] = strings.Join(s, " ")
	}
	return strings.Join(lines, " && ")
}
