#include "base/memory.h"

#include <benchmark/benchmark.h>

// As the program itself runs.
int main(int count, char** words) {
    selvage::base::keep_freed_memory();
    benchmark::Initialize(&count, words);
    if (benchmark::ReportUnrecognizedArguments(count, words)) return 1;
    benchmark::RunSpecifiedBenchmarks();
    benchmark::Shutdown();
    return 0;
}
