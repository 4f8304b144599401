"""The commands: the arguments of each, and the call that it makes; slow imports stand where they are needed."""
