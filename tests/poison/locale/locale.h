/* Stands before the real header where a layer must not see it: DEVELOPERS.md, "Layers". */
#error "this layer must not use the locale (<locale.h>)"
