using System.CommandLine;
using System.Globalization;
using Bridge.Layouts;

namespace Bridge.Cli;

/// <summary>bridge lesson: exercises from a seed, and typed answers marked.</summary>
internal static class LessonCommand
{
    public static Command Make(Report report)
    {
        var seed = Number("--seed", "N",
            "Decides the exercises: the same number always makes the same lesson, and another number another one. 1 if not given.", 0, int.MaxValue);
        var level = Number("--level", "N", "How hard, 1 to 3; all three after one another if not given.", 1, 3);
        var output = Arguments.File("--out", "FILE", $"Where to write the lesson: {PageFile.Endings}.");
        var noAnswers = Arguments.Flag("--no-answers", "Leave out the pages with the answers.");
        var check = Arguments.File("--check", "FILE",
            "Mark these answers to the lesson of the same seed and level: a line for each, as in 3: 4,5 5,5. An answer may be left out.");
        var command = new ExampleCommand("lesson", "Make exercises on records, with answers, from a seed; or mark typed answers.",
            "bridge lesson --seed 7 --out lesson.pdf",
            "bridge lesson --seed 7 --check answers.txt")
        {
            seed, level, output, noAnswers, check,
        };
        command.Demand(parsed =>
        {
            if (parsed.GetValue(output) is null == parsed.GetValue(check) is null)
                parsed.AddError("--out, --check: found neither or both; allowed: one of them.");
        });
        command.SetAction(parsed =>
        {
            var lesson = new Lesson(parsed.GetValue(seed) ?? 1, parsed.GetValue(level));
            return parsed.GetValue(check) is { } answers ? Mark(report, lesson, answers)
                : Write(report, lesson, parsed.GetValue(output)!, !parsed.GetValue(noAnswers));
        });
        return command;
    }

    private static int Write(Report report, Lesson lesson, string path, bool withAnswers)
    {
        PageFile.Check(path);
        var files = new OutputFiles([], ("--out", path));
        var pages = LessonPages.Of(lesson, withAnswers);
        files.Write(PageFile.Of(path, $"Lesson {lesson.Seed}", pages));
        report.Line($"Lesson: {path}, {Counted.Of(lesson.Exercises.Count, "exercise")} on "
            + $"{Counted.Of(pages.Count, "page")}{(withAnswers ? ", the answers last" : "")}.");
        report.Line($"bridge lesson --seed {lesson.Seed}{(lesson.Level is { } level ? $" --level {level}" : "")} --check FILE marks answers.");
        return ExitCode.Done;
    }

    private static int Mark(Report report, Lesson lesson, string path)
    {
        var marks = lesson.Mark(path);
        for (var index = 0; index < marks.Count; index++)
            report.Line($"  {index + 1,2}: {marks[index] switch { null => "not answered", "" => "right", var wrong => $"wrong: {wrong}" }}");
        var right = marks.Count(mark => mark is "");
        report.Line($"{right} of {marks.Count} right.");
        return right == marks.Count ? ExitCode.Done : ExitCode.Refused;
    }

    private static Option<int?> Number(string name, string helpName, string description, int least, int most) => new(name)
    {
        Description = description,
        HelpName = helpName,
        CustomParser = written => int.TryParse(Arguments.Word(written), NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= least
            && number <= most
            ? number
            : Arguments.Refuse<int?>(written, $"{least} to {most}"),
    };
}
