// Package journal keeps what is needed to help a user from afar, and no
// more: a log of a bounded size, the last lines of it at hand, and a report
// of each run that did not end well.
//
//	j := journal.Open(filepath.Join(state, "log"))
//	defer j.Close()
//	j.Log().Info("opened", "leaves", 5)
//
//	watch := journal.Watch(filepath.Join(state, "crash"), j, header)
//	defer watch.Done() // on a clean end: no trace is left
//
// Nothing personal is written. Messages are words of the program; every text
// beside them passes through [Redactor]: the home folder, the names of user
// and machine, paths and names of files, and whatever the window has noted,
// such as titles and the folders of the job in hand, are taken out. Numbers
// stay.
//
// A log that cannot be written hinders nobody: the program goes on without
// one. The zero *Journal and *Watched may be used and do nothing.
package journal
