// Package ui is Leafmend's window: panels around the tracing surface.
//
// # Roles
//
//   - [Session] is the only owner of the job and its history. Panels read it
//     and ask it to edit; they keep no second copy. What changed is told by
//     its named signals.
//   - [Window] holds the panels together and answers commands.
//   - Every act of the user is one row of the command table (commands.go and
//     the files command_*.go). Menus, keys, the help sheet, the command
//     search and the tests are read from that table.
//   - Long work gets a copy of what it needs, runs aside and comes back on the
//     toolkit's goroutine through the [worker]. An answer that came too late
//     is dropped.
//   - Errors become words for the user in one place, words.go.
//   - Every word shown goes through [t], which looks it up in the catalogue.
//
// One file holds one panel or one idea. The package never imports the
// toolkit's app package: it is handed the app and the window, so that it
// builds and is tested without a C compiler or a display.
package ui
