// Package web answers: what does a browser get, and what may it change?
package web
