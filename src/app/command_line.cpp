#include "app/command_line.h"

#include <CLI/CLI.hpp>

namespace selvage::app {

namespace {

constexpr int wrong_usage = 2;

}  // namespace

Command parse_command_line(int count, const char* const* words) {
    CLI::App app("Drill-hole tables of a vein project to models with errors, forecasts and sheets.", "selvage");
    app.set_version_flag("--version", SELVAGE_VERSION);
    app.require_subcommand(1);

    RunCommand run;
    CLI::App* run_words = app.add_subcommand("run", "the whole job");
    run_words->add_option("project", run.project, "project file")->required();
    run_words->add_option("--out", run.out, "folder of the pack (default: pack/ beside the project file)");
    run_words->add_option("--since", run.since, "folder of an earlier pack: its forecasts are carried on");
    run_words->add_option("--style", run.style, "name of a style, or a style file");
    run_words->add_option("--jobs", run.jobs, "threads (default: all)")->check(CLI::Range(1, 1024));
    run_words->add_flag("--quiet", run.quiet, "errors only on stderr");

    CheckCommand check;
    CLI::App* check_words = app.add_subcommand("check", "read and check only");
    check_words->add_option("project", check.project, "project file")->required();

    const CLI::App* reference_words =
        app.add_subcommand("reference", "every key of project and style files, every table column and check");

    try {
        app.parse(count, words);
    } catch (const CLI::ParseError& error) {
        const bool asked_for_help = error.get_exit_code() == static_cast<int>(CLI::ExitCodes::Success);
        app.exit(error);
        return NoCommand{asked_for_help ? 0 : wrong_usage};
    }
    if (run_words->parsed()) return run;
    if (check_words->parsed()) return check;
    if (reference_words->parsed()) return ReferenceCommand{};
    return NoCommand{wrong_usage};
}

}  // namespace selvage::app
