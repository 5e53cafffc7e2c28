package source_test

import (
	"encoding/json"
	"fmt"

	"github.com/valvechest/valvechest/units/source"
)

var (
	standard = source.Ref{Kind: source.Published, Title: "ISO 965-1", Edition: "1998", Locator: "table 2"}
	recalled = source.Ref{Kind: source.FromMemory, Title: "BS 57", Edition: "1951"}
)

func ExampleOf() {
	fmt.Println(source.Of(standard, source.Ref{}, standard))
	// Output: ISO 965-1, 1998, table 2
}

// The rows of a table share their references.
func ExampleShared() {
	fmt.Println(source.Shared(&standard))
	// Output: ISO 965-1, 1998, table 2
}

// A sum rests on the sources of its parts.
func ExampleRefs_With() {
	fmt.Println(source.Of(standard).With(source.Of(recalled)))
	// Output: ISO 965-1, 1998, table 2; from memory: BS 57, 1951
}

func ExampleRefs_And() {
	fmt.Println(source.Of(standard).And(source.Practice()))
	// Output: ISO 965-1, 1998, table 2; common practice
}

func ExampleRefs_All() {
	for ref := range source.Of(standard, recalled).All() {
		fmt.Println(ref.Kind)
	}
	// Output:
	// published
	// from memory
}

func ExampleRefs_Len() {
	fmt.Println(source.Of(standard, recalled).Len(), source.Refs{}.Len())
	// Output: 2 0
}

func ExampleRefs_First() {
	fmt.Println(source.Of(standard, recalled).First())
	// Output: ISO 965-1, 1998, table 2
}

func ExampleRefs_IsZero() {
	fmt.Println(source.Of(standard).IsZero(), source.Refs{}.IsZero())
	// Output: false true
}

func ExampleRefs_Equal() {
	fmt.Println(source.Of(standard, recalled).Equal(source.Of(recalled, standard)))
	// Output: false
}

func ExampleRefs_UnmarshalJSON() {
	text, err := json.Marshal(source.Of(recalled))
	fmt.Println(string(text), err)
	var back source.Refs
	err = json.Unmarshal(text, &back)
	fmt.Println(back, err)
	// Output:
	// [{"kind":"from memory","title":"BS 57","edition":"1951"}] <nil>
	// from memory: BS 57, 1951 <nil>
}

// A program marks what nobody has read in a reviewed work.
func ExampleRefs_Recalled() {
	fmt.Println(source.Of(standard).Recalled(), source.Of(standard, recalled).Recalled())
	// Output: false true
}

func ExampleKinds() {
	for _, kind := range source.Kinds() {
		fmt.Println(kind)
	}
	// Output:
	// published
	// common practice
	// from memory
	// derived
	// unreviewed
}

func ExampleParseKind() {
	kind, err := source.ParseKind("from memory")
	fmt.Println(source.Ref{Kind: kind}.Recalled(), err)
	// Output: true <nil>
}

func ExamplePractice() {
	fmt.Println(source.Practice())
	// Output: common practice
}
