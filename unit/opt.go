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

// Fill makes the value present and returns a *T to write it through; Clear makes it absent.
// Both are for binders that work by reflection and do not know T (see Optional).
func (o *Opt[T]) Fill() any { o.ok = true; return &o.value }

// Clear makes the value absent.
func (o *Opt[T]) Clear() { *o = Opt[T]{} }

// Any returns the value (a T also when it is absent, then the zero T) and whether it is present.
func (o Opt[T]) Any() (any, bool) { return o.value, o.ok }

// Optional is what every *Opt[T] and *Box[T] offers to code that works by reflection.
type Optional interface {
	Fill() any
	Clear()
	Any() (any, bool)
	Given() bool
}
