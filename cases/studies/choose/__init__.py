"""The lightest design: everything that a file leaves open is chosen so that nothing lighter earns the verdict."""
