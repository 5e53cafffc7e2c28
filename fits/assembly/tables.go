package assembly

import "embed"

//go:embed tables/*.csv
var tables embed.FS
