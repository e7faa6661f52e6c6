// Command reconcile tells which ferrule goes on which head, for whole catalogues. See reconcile help.
package main

import "os"

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
