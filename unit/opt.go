package unit

// Opt is a value that may be absent. The zero Opt is absent; a present zero is a zero.
type Opt[T any] struct {
	value T
	ok    bool
}

// Some returns a present value.
func Some[T any](v T) Opt[T] { return Opt[T]{value: v, ok: true} }

// Get returns the value and whether it is present.
func (o Opt[T]) Get() (T, bool) { return o.value, o.ok }

// Given reports whether the value is present.
func (o Opt[T]) Given() bool { return o.ok }

// Else returns the value, or other when it is absent. Whoever calls it prints other as assumed.
func (o Opt[T]) Else(other T) T {
	if o.ok {
		return o.value
	}
	return other
}
