package material_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/valvechest/valvechest/units/material"
)

// A bad cell fails the tests by file and line, before one of them stumbles on it.
func TestMain(m *testing.M) {
	if err := material.ReadTables(); err != nil {
		fmt.Println("--- FAIL:", err)
		os.Exit(1)
	}
	os.Exit(m.Run())
}
