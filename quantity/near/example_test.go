package near_test

import (
	"fmt"

	"casewright/quantity/near"
)

func ExampleMatch() {
	fmt.Println(near.Match("egde", []string{"thread", "count", "edge"}))
	fmt.Println(near.Match("propellant", []string{"thread", "count", "edge"}))
	// Output:
	// edge true
	//  false
}
