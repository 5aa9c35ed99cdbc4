// Package bridge is the door to the browser: the only package of ours, the
// programs' mains apart, that names syscall/js.
package bridge

import "syscall/js"

// A Value is a value of JavaScript.
type Value = js.Value

// Global returns the global variable name.
func Global(name string) Value { return js.Global().Get(name) }

// Call calls the global function name.
func Call(name string, args ...any) Value { return js.Global().Call(name, args...) }

// Export makes f the global function name. It must not block.
func Export(name string, f func(args []Value) any) {
	js.Global().Set(name, js.FuncOf(func(_ Value, args []Value) any { return f(args) }))
}

// Bytes returns a copy of what is in an ArrayBuffer or a view of one.
func Bytes(v Value) []byte {
	if v.InstanceOf(js.Global().Get("ArrayBuffer")) {
		v = js.Global().Get("Uint8Array").New(v)
	} else if !v.InstanceOf(js.Global().Get("Uint8Array")) && !v.InstanceOf(js.Global().Get("Uint8ClampedArray")) {
		return nil
	}
	b := make([]byte, v.Get("byteLength").Int())
	js.CopyBytesToGo(b, v)
	return b
}

// Array returns a new Uint8Array with the bytes of b. Its buffer may be
// transferred.
func Array(b []byte) Value {
	v := js.Global().Get("Uint8Array").New(len(b))
	js.CopyBytesToJS(v, b)
	return v
}

// Object returns an object of keys and values in turn.
func Object(pairs ...any) Value {
	v := js.Global().Get("Object").New()
	for i := 0; i+1 < len(pairs); i += 2 {
		v.Set(pairs[i].(string), pairs[i+1])
	}
	return v
}

// List returns an array of values.
func List(values ...Value) Value {
	v := js.Global().Get("Array").New()
	for _, e := range values {
		v.Call("push", e)
	}
	return v
}

// Text returns v as a string, "" if it is none.
func Text(v Value) string {
	if v.Type() != js.TypeString {
		return ""
	}
	return v.String()
}

// Number returns v as a number, def if it is none.
func Number(v Value, def float64) float64 {
	if v.Type() != js.TypeNumber {
		return def
	}
	return v.Float()
}
