module github.com/valvechest/valvechest

go 1.25.0

require (
	codeberg.org/go-fonts/liberation v0.5.0 // indirect
	codeberg.org/go-pdf/fpdf v0.12.0 // indirect
	github.com/google/go-cmp v0.7.0 // indirect
	github.com/pelletier/go-toml/v2 v2.4.3 // indirect
	github.com/shopspring/decimal v1.6.0 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
