package host

// Confiner is a program that confines itself and then becomes the plugin.
type Confiner struct {
	Path string   // the program
	Args []string // before the folder and the plugin's command
}

// wrap gives the command that starts a plugin: the plugin itself, or the confiner before it.
func (c *Confiner) wrap(s Spec, dir string) (program string, args []string) {
	if c == nil {
		return s.Path, s.Args
	}
	args = append(append([]string{}, c.Args...), dir, s.Path)
	return c.Path, append(args, s.Args...)
}
