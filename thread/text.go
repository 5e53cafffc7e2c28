package thread

// unmarshal sets a value to what parse reads, and leaves it alone on an error.
func unmarshal[T any](v *T, text []byte, parse func(string) (T, error)) error {
	parsed, err := parse(string(text))
	if err == nil {
		*v = parsed
	}
	return err
}
