// Command berthwright computes every answer of a campervan build from one description of it.
package main

import (
	"os"

	"berthwright/cli"
)

func main() { os.Exit(cli.Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
