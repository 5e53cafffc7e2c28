package check

import (
	"fmt"
	"reflect"
)

// Only returns the error of an answer, which must hold nothing beside it: what is
// refused has no figure that somebody might go on with. It panics where there is one.
func Only(answer any, err error) error {
	if v := reflect.ValueOf(answer); err != nil && v.IsValid() && !v.IsZero() {
		panic(fmt.Sprintf("%v stands beside an error: %v", answer, err))
	}
	return err
}
