package check_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
)

// The program in the README prints what the README says, and the commands there
// name programs and files that exist.
func TestReadme(t *testing.T) {
	t.Chdir(check.Path(t, ".."))
	data, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	program, rest, ok := between(text, "```go\n", "```\n")
	want, _, okText := between(rest, "```text\n", "```\n")
	if !ok || !okText {
		t.Fatal("no program with its output")
	}
	file := filepath.Join(t.TempDir(), "main.go")
	if err := os.WriteFile(file, []byte(program), 0o666); err != nil {
		t.Fatal(err)
	}
	got, err := exec.Command("go", "run", "-exec", strings.Join(check.Foreign(), " "), file).CombinedOutput()
	if err != nil || string(got) != want {
		t.Errorf("the program prints %q (%v), the README says %q", got, err, want)
	}

	for _, example := range regexp.MustCompile(`go run \./(examples/\w+)`).FindAllStringSubmatch(text, -1) {
		if _, err := os.Stat(filepath.Join(example[1], "main.go")); err != nil {
			t.Error(err)
		}
	}
	for _, link := range regexp.MustCompile(`\]\(([^)]+)\)`).FindAllStringSubmatch(text, -1) {
		if _, err := os.Stat(link[1]); err != nil {
			t.Error(err)
		}
	}
	examples, err := filepath.Glob("examples/*")
	if err != nil {
		t.Fatal(err)
	}
	for _, example := range examples {
		if !strings.Contains(text, "./"+example) {
			t.Errorf("the README does not tell of %s", example)
		}
	}
}

func between(text, start, end string) (inside, rest string, ok bool) {
	_, text, ok = strings.Cut(text, start)
	if !ok {
		return "", "", false
	}
	return strings.Cut(text, end)
}
