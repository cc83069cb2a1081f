package main

import "runtime"

// inOrder works on 0 … n−1 on all cores and hands what came of each to use, in
// that order. Work runs ahead of use only so far, so that what is kept does not
// grow with n. The first error of use ends it. A panic in work comes out here.
func inOrder[T any](n int, work func(i int) T, use func(i int, t T) error) error {
	type outcome struct {
		value T
		fault any
	}
	ahead := make(chan chan outcome, 2*runtime.GOMAXPROCS(0))
	done := make(chan struct{})
	defer close(done)
	go func() {
		defer close(ahead)
		for i := range n {
			one := make(chan outcome, 1)
			select {
			case ahead <- one:
			case <-done:
				return
			}
			go func() {
				var o outcome
				defer func() {
					o.fault = recover()
					one <- o
				}()
				o.value = work(i)
			}()
		}
	}()
	i := 0
	for one := range ahead {
		o := <-one
		if o.fault != nil {
			panic(o.fault)
		}
		if err := use(i, o.value); err != nil {
			return err
		}
		i++
	}
	return nil
}
