package cli

type serveCmd struct{}

func (serveCmd) Run(*env) error { return usage{"serve is not wired yet"} }
