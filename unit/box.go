package unit

// Box is an Opt for a large value that is rarely given: what it stands in stays cheap to copy. The zero Box is absent.
// Get returns a copy, so that whoever has one cannot change the value in another. A Box does not compare with ==.
type Box[T any] struct {
	_     [0]func()
	value *T
}

// Boxed returns a present value.
func Boxed[T any](v T) Box[T] { return Box[T]{value: &v} }

// Get returns the value and whether it is present.
func (b Box[T]) Get() (v T, ok bool) {
	if b.value == nil {
		return v, false
	}
	return *b.value, true
}

// Given reports whether the value is present.
func (b Box[T]) Given() bool { return b.value != nil }

// Else returns the value, or other when it is absent. Whoever calls it prints other as assumed.
func (b Box[T]) Else(other T) T {
	if b.value == nil {
		return other
	}
	return *b.value
}

// Fill is that of Optional. It makes a copy first: other boxes may hold the same value.
func (b *Box[T]) Fill() any {
	v, _ := b.Get()
	b.value = &v
	return b.value
}

// Clear makes the value absent.
func (b *Box[T]) Clear() { *b = Box[T]{} }

// Any returns the value (the zero T when it is absent) and whether it is present.
func (b Box[T]) Any() (any, bool) { return b.Get() }
