package keys

// Files are the tables, for the test of their headers.
var Files = &files
