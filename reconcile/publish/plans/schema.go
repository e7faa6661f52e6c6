package plans

import (
	"bytes"
	_ "embed"
)

//go:embed schema/stock.schema.json
var stockSchema []byte

//go:embed schema/sizes.schema.json
var sizesSchema []byte

// StockSchema returns the JSON Schema (2020-12) of stock.json.
func StockSchema() []byte { return bytes.Clone(stockSchema) }

// SizesSchema returns the JSON Schema (2020-12) of sizes.json.
func SizesSchema() []byte { return bytes.Clone(sizesSchema) }
