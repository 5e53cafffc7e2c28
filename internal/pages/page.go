package pages

import (
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units/finding"
)

// A Page is one part of the engine book: one subject, from one part of the file.
type Page struct {
	Sections    []book.Section
	Findings    finding.List
	Precautions []finding.Precaution
}

// A maker makes a page of an engine file; nil if the file has nothing for it, and
// an error with file, line and column if what is there cannot be used.
type maker func(*engine.Engine) (*Page, error)
