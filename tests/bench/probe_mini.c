/* probe_mini.c - mini FILE: the floor without records. */
#include "bench/mini.h"

int main(int argc, char *argv[])
{
    return argc == 2 ? mini_run(argv[1]) : 2;
}
