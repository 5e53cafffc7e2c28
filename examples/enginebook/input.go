package main

import "github.com/valvechest/valvechest/internal/engine"

// An input is an engine file that was read.
type input struct{ *engine.Engine }

func parse(name string, text []byte) (*input, error) {
	e, err := engine.Parse(name, text)
	if err != nil {
		return nil, err
	}
	return &input{e}, nil
}
