package mendplan

// Version is the version of Leafmend: of the window, the command line, the
// foot of the printed pages and the packages. It stands here only.
const Version = "0.1.0"
