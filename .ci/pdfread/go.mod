module pdfread

go 1.25

require github.com/pdfcpu/pdfcpu v0.11.1

require (
	github.com/clipperhouse/uax29/v2 v2.2.0 // indirect
	github.com/hhrutter/lzw v1.0.0 // indirect
	github.com/hhrutter/pkcs7 v0.2.0 // indirect
	github.com/hhrutter/tiff v1.0.2 // indirect
	github.com/mattn/go-runewidth v0.0.19 // indirect
	github.com/pkg/errors v0.9.1 // indirect
	golang.org/x/crypto v0.43.0 // indirect
	golang.org/x/image v0.32.0 // indirect
	golang.org/x/text v0.30.0 // indirect
	gopkg.in/yaml.v2 v2.4.0 // indirect
)
