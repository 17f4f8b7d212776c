package mendplan

// ShortHostForTest is how names of temporary files tell this machine.
func ShortHostForTest() string { return shortHash(hostName()) }
