package assembly_test

import (
	"testing"

	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/internal/check"
)

func TestShippedTables(t *testing.T) { check.Tables(t, assembly.Tables, "tables/*.csv") }
