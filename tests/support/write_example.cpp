#include "support/example_site.h"

#include <cstdio>

// Writes the tables of the example project to a folder: write_example examples/cold-hythe
int main(int count, char** words) {
    if (count != 2) {
        std::fprintf(stderr, "usage: write_example FOLDER\n");
        return 2;
    }
    selvage::made_up::cold_hythe().write(words[1]);
    return 0;
}
