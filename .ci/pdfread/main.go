// Pdfread reads PDF files with a reader in Go that shares no code with this
// repository, and holds them to the standard. It ends with 1 where one does not keep
// to it.
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
)

func main() {
	api.DisableConfigDir() // it writes nothing into the home folder
	failed := len(os.Args) == 1
	for _, name := range os.Args[1:] {
		short := filepath.Join(filepath.Base(filepath.Dir(name)), filepath.Base(name))
		if err := api.ValidateFile(name, model.NewDefaultConfiguration()); err != nil {
			fmt.Printf("FAIL %s by pdfcpu: %v\n", short, err)
			failed = true
			continue
		}
		fmt.Printf("ok   %s by pdfcpu\n", short)
	}
	if failed {
		os.Exit(1)
	}
}
