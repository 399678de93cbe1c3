package cli

type serveCmd struct{}

func (serveCmd) Run(*env) error { return usage{text: "serve is not wired yet"} }
