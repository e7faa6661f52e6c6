package mapping

import (
	"errors"
	"reflect"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// unknownKey returns an error for the first key that a mapping file cannot have, nil where it has none. The strict mode of the TOML
// library says the same in steps that grow with the square of the keys.
func unknownKey(data []byte) error {
	parser := unstable.Parser{}
	parser.Reset(data)
	whole := reflect.TypeFor[file]()
	in, table := whole, []string(nil)
	for parser.NextExpression() {
		node := parser.Expression()
		var err error
		switch node.Kind {
		case unstable.Table, unstable.ArrayTable:
			in, table, err = step(&parser, whole, nil, node)
		case unstable.KeyValue:
			err = checkValue(&parser, in, table, node)
		}
		if err != nil {
			return err
		}
	}
	return nil // what is no TOML is found when it is decoded
}

// checkValue looks at a key and its value, and at the keys of an inline table.
func checkValue(parser *unstable.Parser, in reflect.Type, table []string, node *unstable.Node) error {
	of, key, err := step(parser, in, table, node)
	if err != nil || node.Value().Kind != unstable.InlineTable {
		return err
	}
	for inner := node.Value().Children(); inner.Next(); {
		if err := checkValue(parser, of, key, inner.Node()); err != nil {
			return err
		}
	}
	return nil
}

// step goes from a type to the one that a key of it has.
func step(parser *unstable.Parser, in reflect.Type, above []string, node *unstable.Node) (of reflect.Type, key []string, err error) {
	key = slices.Clone(above)
	for part := node.Key(); part.Next(); {
		name := string(part.Node().Data)
		key = append(key, name)
		if in = memberOf(in, name); in == nil {
			return nil, nil, &FormatError{Line: parser.Shape(part.Node().Raw).Start.Line, Key: strings.Join(key, "."), Err: errors.New("there is no such key")}
		}
	}
	return in, key, nil
}

// memberOf returns the type of what a key leads to, nil where there is no such key. Below what may be anything is anything.
func memberOf(in reflect.Type, name string) reflect.Type {
	switch in.Kind() {
	case reflect.Interface:
		return in
	case reflect.Map:
		return in.Elem()
	case reflect.Struct:
		for i := range in.NumField() {
			if field := in.Field(i); strings.EqualFold(field.Tag.Get("toml"), name) {
				return field.Type
			}
		}
	}
	return nil
}
