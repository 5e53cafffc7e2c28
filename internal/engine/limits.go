package engine

// Largest is how many bytes a file may have. An engine has some hundred keys in a
// few kilobytes.
const Largest = 256 << 10

const (
	mostKeys    = 5000
	mostTables  = 200
	deepestKey  = 8    // names with points between them
	mostStuds   = 60   // of one cover
	longestText = 1000 // characters of a value
	mostTold    = 100  // mistakes
)
