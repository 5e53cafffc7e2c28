module github.com/valvechest/valvechest

go 1.25.0

require (
	codeberg.org/go-fonts/liberation v0.5.0
	codeberg.org/go-pdf/fpdf v0.12.0
	github.com/google/go-cmp v0.7.0
	github.com/pelletier/go-toml/v2 v2.4.3
	github.com/shopspring/decimal v1.6.0
	gonum.org/v1/gonum v0.17.0
	pgregory.net/rapid v1.3.0
)
