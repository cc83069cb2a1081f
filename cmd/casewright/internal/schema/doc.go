// Package schema writes the JSON Schema (draft 2020-12) of design files, for
// editors. It is made of what the reader itself goes by: keys, units, materials,
// checks and the names in the tables. What the reader takes, it takes; it
// cannot tell geometry, amounts out of range, and which names a file has made.
package schema
