namespace Bridge.Layouts;

/// <summary>A lesson on paper: a reminder of the records, the exercises with room to write, and the answers on pages of their own.</summary>
public static class LessonPages
{
    private const double Left = 15;
    private const double Small = 2.9;
    private const double Tiny = 2.4;
    private const double Line = 4.4;
    private const double Bottom = 286;
    private const double CellMm = 2.4;
    private const double StarsAt = Left + 165;
    private const int LongestAnswer = 100;
    private const int LongestPoints = 120;
    private const int LongestQuestion = (int)((StarsAt - Left - 8) / (Small * Page.LetterWidth)) - 1;

    private static readonly string[] Reminder =
    [
        "A record is three bytes: op x y p q. op has eight bits, x, y, p and q have four each, the highest bit first.",
        "op is verb (3 bits) head (1: 0 a, 1 b) heading (3) rise (1: up a layer first). A job begins at (0, 0).",
        "Verbs: 0 end, 1 go to (x, y), 2 row of 16p + q + 1 cells from (x, y) along the heading, 3 patch of p + 1 by",
        "q + 1 cells from the corner (x, y), row by row, back and forth, 4 line: works each cell of the straight line",
        "from where the head is to (x, y), but not the cell it starts on: a cell at each step along its longer side,",
        "the other side to the nearest cell, a half counting as the next, 5 again: the last 16x + y + 1 records,",
        "16p + q + 1 more times, 6 wait: with heading 0 it waits 16p + q tenths of a second, with heading 1 it is a",
        "hold, until the operator goes on. 7 is no verb.",
        "Bits that a verb does not use are 0: head, heading and rise of an again; heading, p and q of a go or a line;",
        "head, x and y of a wait, and p and q of a hold; all of an end.",
        "Headings: 0 is +X, 1 +X+Y, 2 +Y, 3 -X+Y, 4 -X, 5 -X-Y, 6 -Y, 7 +X-Y. A patch's heading is a sum:",
        "1 along Y first, 2 X falls from the corner, 4 Y falls from it.",
    ];

    private static readonly string[] AboutStars =
    [
        "Below each answer stands how hard the exercise is, in points for each thing that makes it harder.",
        "One star is up to 1 point, two are 2 or 3, and three are 4 and more.",
    ];

    /// <summary>The pages.</summary>
    /// <param name="lesson">The lesson.</param>
    /// <param name="withAnswers">Whether the answers follow.</param>
    public static IReadOnlyList<Page> Of(Lesson lesson, bool withAnswers)
    {
        var pages = Broken(lesson.Exercises.Select((exercise, index) => Block(exercise, index + 1)), Title(lesson, "Lesson"), Reminder);
        if (withAnswers)
            pages.AddRange(Broken(lesson.Exercises.Select((exercise, index) => Answer(exercise, index + 1)), Title(lesson, "Answers"), AboutStars));
        return pages;
    }

    private static string Title(Lesson lesson, string word) => lesson.Level is { } level ? $"{word} {lesson.Seed}, level {level}" : $"{word} {lesson.Seed}";

    // A block that has no room left begins the next page.
    private static List<Page> Broken(IEnumerable<(double Height, Func<double, IEnumerable<Mark>> At)> blocks, string title, string[] head)
    {
        var (pages, marks, y) = (new List<Page>(), new List<Mark>(), 0.0);
        Begin(title);
        marks.AddRange(head.Select((line, index) => new Mark.Text(Left, y + index * Line, Small, line)));
        y += head.Length * Line + 4;
        foreach (var (height, at) in blocks)
        {
            if (y + height > Bottom)
            {
                pages.Add(new Page(marks));
                marks = [];
                Begin($"{title}, page {pages.Count + 1}");
            }
            marks.AddRange(at(y));
            y += height;
        }
        pages.Add(new Page(marks));
        return pages;

        void Begin(string words)
        {
            marks.Add(new Mark.Text(Left, 18, 5, words, IsBold: true));
            y = 28;
        }
    }

    private static (double Height, Func<double, IEnumerable<Mark>> At) Block(Exercise exercise, int number)
    {
        var grid = exercise.HasGrid ? 16 * CellMm + 6 : 0;
        return ((Lines(exercise).Count() + 2.3) * Line + grid, Marks);

        IEnumerable<Mark> Marks(double y)
        {
            yield return new Mark.Text(Left, y, 3.2, $"{number}.", IsBold: true);
            yield return new Mark.Text(StarsAt, y, Small, Stars(exercise));
            foreach (var (line, index) in Lines(exercise).Select((line, index) => (line, index)))
                yield return new Mark.Text(Left + 8, y + index * Line, Small, line);
            y += Lines(exercise).Count() * Line;
            if (exercise.HasGrid)
                foreach (var mark in EmptyGrid(Left + 14, y - 1))
                    yield return mark;
            yield return new Mark.Rule(Left + 8, y + grid + 3, Left + 175, y + grid + 3);
        }
    }

    private static (double Height, Func<double, IEnumerable<Mark>> At) Answer(Exercise exercise, int number)
    {
        var (lines, points) = (Wrapped(exercise.Answer, LongestAnswer).ToList(), Wrapped($"{Stars(exercise)} {exercise.Difficulty}", LongestPoints).ToList());
        return ((lines.Count + points.Count) * Line + 3, y => lines.Select((line, index) => new Mark.Text(Left + 8, y + index * Line, Small, line))
            .Concat(points.Select((line, index) => new Mark.Text(Left + 8, y + (lines.Count + index) * Line, Tiny, line)))
            .Prepend(new Mark.Text(Left, y, 3.2, $"{number}.", IsBold: true)));
    }

    private static string Stars(Exercise exercise) => new('*', exercise.Level);

    private static IEnumerable<Mark> EmptyGrid(double x, double y)
    {
        const double Side = 16 * CellMm;
        for (var line = 0; line <= 16; line++)
        {
            yield return new Mark.Rule(x + line * CellMm, y, x + line * CellMm, y + Side);
            yield return new Mark.Rule(x, y + line * CellMm, x + Side, y + line * CellMm);
        }
        for (var cell = 0; cell < 16; cell += 5)
        {
            yield return new Mark.Text(x + cell * CellMm + 0.4, y + Side + 2.6, 2.2, $"{cell}");
            yield return new Mark.Text(x - 3.2, y + Side - cell * CellMm - 0.5, 2.2, $"{cell}");
        }
        yield return new Mark.Text(x + Side + 2, y + Side + 0.5, 2.6, "x");
        yield return new Mark.Text(x - 3, y - 1, 2.6, "y");
    }

    // Short of the stars.
    private static IEnumerable<string> Lines(Exercise exercise) => exercise.Question.SelectMany(line => Wrapped(line, LongestQuestion));

    private static IEnumerable<string> Wrapped(string text, int longest)
    {
        for (; text.Length > longest; text = text[(text.LastIndexOf(' ', longest) + 1)..])
            yield return text[..text.LastIndexOf(' ', longest)];
        yield return text;
    }
}
