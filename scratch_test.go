package casewright

import (
	"fmt"
	"os"
	"testing"
)

func TestScratch(t *testing.T) {
	f := os.Getenv("F")
	if f == "" {
		f = "testdata/designs/basalt64.toml"
	}
	d, err := ReadFile(f)
	if err != nil {
		t.Fatal(err)
	}
	m := NewMotor(d)
	w := m.Evaluate(nil)
	n := m.EvaluateNominal(nil)
	for i, c := range w {
		v, need := c.Capacity, c.Demand*c.Factor
		if c.Method.Kind != 0 {
			v = c.Value
			need = c.Min
			if need != need {
				need = c.Max
			}
		}
		fmt.Printf("%d %-26s %-8s has %12.5g needs %12.5g margin %7.3f nominal %7.3f at %8.3g %s %v\n", c.Part, c.Method.ID, c.Verdict, v, need, c.Margin, n[i].Margin, c.GivesWayAt/1e6, c.Reason.ID(), c.Notes.List())
	}
}
func BenchmarkEvaluate(b *testing.B) {
	d, err := ReadFile("testdata/designs/basalt64.toml")
	if err != nil {
		b.Fatal(err)
	}
	m := NewMotor(d)
	var dst = m.Evaluate(nil)
	b.ReportAllocs()
	for b.Loop() {
		dst = m.Evaluate(dst[:0])
	}
}
func BenchmarkNewMotor(b *testing.B) {
	d, err := ReadFile("testdata/designs/basalt64.toml")
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		NewMotor(d)
	}
}
func BenchmarkRead(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Read("x", []byte(Example)); err != nil {
			b.Fatal(err)
		}
	}
}
