package oracle

import (
	"encoding/binary"
	"reflect"

	"plank.example/cutopt"
)

// Edit changes a plan as the bytes say, ten at a time: which number, flag or text of it, and to what; or which list
// loses its last item or repeats it. It lets a fuzzer reach every part of a plan without learning how files are
// written.
func Edit(p *cutopt.Plan, edits []byte) {
	for ; len(edits) >= 10; edits = edits[10:] {
		var leaves []reflect.Value
		gather(reflect.ValueOf(p).Elem(), &leaves)
		v := leaves[int(binary.LittleEndian.Uint16(edits))%len(leaves)]
		n := binary.LittleEndian.Uint64(edits[2:])
		switch v.Kind() {
		case reflect.Int, reflect.Int64:
			v.SetInt(int64(n))
		case reflect.Uint8:
			v.SetUint(n & 0xff)
		case reflect.Float64:
			v.SetFloat(float64(int64(n)) / 1000)
		case reflect.Bool:
			v.SetBool(n%2 == 1)
		case reflect.String:
			v.SetString(string(edits[2:10]))
		case reflect.Slice:
			if k := v.Len(); k > 0 && n%2 == 0 {
				v.Set(v.Slice(0, k-1))
			} else if k > 0 && k < 100 {
				v.Set(reflect.Append(v.Slice3(0, k, k), v.Index(int(n/2%uint64(k)))))
			}
		}
	}
}

// gather lists what of a value can be changed.
func gather(v reflect.Value, leaves *[]reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			gather(v.Field(i), leaves)
		}
	case reflect.Slice:
		*leaves = append(*leaves, v)
		for i := range v.Len() {
			gather(v.Index(i), leaves)
		}
	case reflect.Pointer: // the certificate is for package proof
	default:
		*leaves = append(*leaves, v)
	}
}
