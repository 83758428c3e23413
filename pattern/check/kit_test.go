package check

import (
	"fmt"
	"reflect"
)

// eachNumber calls do for every float and integer in a value, with the way to it:
// "Deep.Attached.Inside.Bridges[2].Width". into says whether to look inside of a part.
func eachNumber(path string, v reflect.Value, into func(path string, v reflect.Value) bool, do func(path string, x float64)) {
	if !into(path, v) {
		return
	}
	switch v.Kind() {
	case reflect.Float32, reflect.Float64:
		do(path, v.Float())
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		do(path, float64(v.Int()))
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			eachNumber(path, v.Elem(), into, do)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			eachNumber(join1(path, v.Type().Field(i).Name), v.Field(i), into, do)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			eachNumber(fmt.Sprintf("%s[%d]", path, i), v.Index(i), into, do)
		}
	case reflect.Map:
		for it := v.MapRange(); it.Next(); {
			eachNumber(fmt.Sprintf("%s[%v]", path, it.Key()), it.Value(), into, do)
		}
	}
}

func join1(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}
