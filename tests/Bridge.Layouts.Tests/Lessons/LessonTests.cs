using System.Text;
using Bridge.Jobs;
using UglyToad.PdfPig;

namespace Bridge.Layouts.Tests;

public class LessonTests
{
    public static TheoryData<int?> Levels => [null, 1, 2, 3];

    [Theory]
    [MemberData(nameof(Levels))]
    public void The_answer_to_every_exercise_is_marked_right_and_another_exercise_s_is_not(int? level)
    {
        for (var seed = 0; seed < 100; seed++)
        {
            var lesson = new Lesson(seed, level);
            Assert.All(lesson.Mark(Bytes(AnswersOf(lesson)), "answers"), mark => Assert.Equal("", mark));
            foreach (var exercise in lesson.Exercises)
                foreach (var other in lesson.Exercises.Where(other => other.Answer != exercise.Answer && other.GetType() == exercise.GetType()))
                    Assert.NotNull(exercise.Wrong(other.Answer));
        }
    }

    [Fact]
    public void A_lesson_grows_harder_and_is_the_same_for_the_same_seed()
    {
        var lesson = new Lesson(7, null);
        Assert.Equal([1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 3, 3, 3, 3, 3], lesson.Exercises.Select(exercise => exercise.Level));
        Assert.Equal(AnswersOf(lesson), AnswersOf(new Lesson(7, null)));
        Assert.NotEqual(AnswersOf(lesson), AnswersOf(new Lesson(8, null)));
    }

    [Theory]
    [MemberData(nameof(Levels))]
    public void Every_exercise_is_as_hard_as_its_place_in_the_lesson_says_and_of_a_pattern_of_its_own(int? level)
    {
        for (var seed = 0; seed < 100; seed++)
        {
            var exercises = new Lesson(seed, level).Exercises;
            Assert.Equal(level is { } one ? [one, one] : [1, 2, 3],
                exercises.Chunk(5).Select(some => some.Select(exercise => exercise.Level).Distinct().Single()));
            Assert.Equal(exercises.Count, exercises.Select(exercise => exercise.Pattern).Distinct().Count());
            foreach (var exercise in exercises)
                Assert.InRange(exercise.Difficulty.Points, exercise.Level switch { 1 => 0, 2 => 2, _ => 4 }, exercise.Level switch { 1 => 1, 2 => 3, _ => 20 });
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Every_verb_comes_up_at_every_level_a_hold_among_them(int level)
    {
        var verbs = Enumerable.Range(0, 100).SelectMany(seed => new Lesson(seed, level).Exercises).SelectMany(exercise => exercise.Records)
            .Select(Exercise.Name).ToHashSet();
        Assert.Equal(["again", "end", "go", "hold", "line", "patch", "row", "wait"], verbs.Order());
    }

    [Theory]
    [MemberData(nameof(Levels))]
    public void Whatever_is_changed_in_an_answer_is_marked_wrong(int? level)
    {
        for (var seed = 0; seed < 60; seed++)
            foreach (var exercise in new Lesson(seed, level).Exercises)
                Assert.All(Changed(exercise), changed => Assert.True(exercise.Wrong(changed) is not null, $"{seed}: {exercise.Answer} as {changed}"));
    }

    // Here the other 23 bits are tried without FlippedBit.
    [Fact]
    public void Where_only_the_cells_are_told_one_bit_alone_gives_them()
    {
        var pictures = Enumerable.Range(0, 200).SelectMany(seed => new Lesson(seed, 3).Exercises).OfType<FlippedBitExercise>().ToList();
        Assert.Equal(400, pictures.Count);
        foreach (var exercise in pictures)
        {
            Assert.Contains("work these cells with head", exercise.Question[0]);
            var wrong = Convert.ToInt32(exercise.Question[1].Split(": ")[1].Replace(" ", "", StringComparison.Ordinal), 2);
            var wanted = WorkOf(exercise.Records[0])!;
            var fitting = Enumerable.Range(1, 24).Where(bit => WorkOf(RecordOf(wrong ^ 1 << 24 - bit)) is { } work && work.SetEquals(wanted));
            Assert.Equal(exercise.Answer, string.Join(' ', fitting));
        }
    }

    [Fact]
    public void Waits_and_holds_of_a_job_are_kept_when_it_is_shortened()
    {
        var row = Record.Row(RecordWidth.Four, Head.A, new Cell(1, 2), 0, 5, rise: true);
        var wait = Record.Wait(RecordWidth.Four, 20);
        var exercise = new ShortenExercise(new("own", [row, wait, row, wait, row, wait], [row, wait, Record.Again(RecordWidth.Four, 2, 2)]));
        Assert.Null(exercise.Wrong("41 12 04 C0 00 14 A0 01 01"));
        Assert.Contains("it waits 0 tenths", exercise.Wrong("41 12 04 A0 00 01"));
        Assert.Contains("it waits 60 tenths of a second in all, where 60 are right, or holds or waits elsewhere", exercise.Wrong("41 12 04 A0 00 01 C0 00 3C"));
    }

    [Fact]
    public void A_job_is_followed_through_its_repeats()
    {
        // Five cells, 2 s, up and again three times more: 20 cells, 8 s.
        var exercise = new FollowExercise([Record.Row(RecordWidth.Four, Head.B, new Cell(1, 2), 0, 5, rise: true), Record.Wait(RecordWidth.Four, 20),
            Record.Again(RecordWidth.Four, 2, 3)]);
        Assert.Contains("51 12 04   C0 00 14   A0 01 02   00 00 00", exercise.Question[1]);
        Assert.Null(exercise.Wrong("20 5 2 4 b 80"));
        Assert.Equal("not right: cells, tenths", exercise.Wrong("5 5 2 4 b 20"));
    }

    [Fact]
    public void Bytes_that_are_not_the_record_asked_for_are_told_back_in_words()
    {
        var exercise = new EncodeExercise(Record.Go(Head.B, new Cell(7, 8)));
        Assert.Null(exercise.Wrong("307800"));
        Assert.Equal("these bytes mean: go to (7, 8) with head a", exercise.Wrong("20 78 00"));
        Assert.Equal("these bytes mean: go to (7, 8) with head b; and q should be 0", exercise.Wrong("30 78 01"));
        Assert.StartsWith("write three bytes", exercise.Wrong("30 78"));
    }

    // Worked by hand from JOB-FORMAT.md.
    [Theory]
    [InlineData("row a 0 0 1 2 0 4", null)]
    [InlineData("ROW  a 0 0 1 2 0 4 ", null)]
    [InlineData("row b 0 0 1 2 0 5", "not right: head, q")]
    [InlineData("row a 1 2 0 4", "6 words, where 8 are asked for")]
    public void A_decoded_record_is_marked_word_by_word(string typed, string? wrong) =>
        Assert.Equal(wrong, new DecodeExercise(Record.Row(RecordWidth.Four, Head.A, new Cell(1, 2), 0, 5)).Wrong(typed));

    [Fact]
    public void Cells_may_be_named_in_any_order_and_what_is_wrong_with_them_is_counted()
    {
        var exercise = new CellsExercise([Record.Row(RecordWidth.Four, Head.A, new Cell(1, 2), 2, 3)]);
        Assert.Null(exercise.Wrong("1,4 1,2 1,3"));
        Assert.Equal("1 of 3 cells missing, 1 too many, such as 2,2", exercise.Wrong("1,4 1,3 2,2"));
        Assert.Equal("\"1;4\" is no cell: write x,y", exercise.Wrong("1;4"));
    }

    [Fact]
    public void A_flipped_bit_is_counted_from_the_left()
    {
        var exercise = new FlippedBitExercise(new(Record.Row(RecordWidth.Four, Head.A, new Cell(1, 2), 0, 5), 9), isPicture: false);
        Assert.Contains("01000000 01010010 00000100", exercise.Question[1]); // 40 12 04 with the tenth bit changed
        Assert.Null(exercise.Wrong(" 10 "));
        Assert.Equal("not bit 9", exercise.Wrong("9"));
        Assert.Equal("write a number from 1 to 24", exercise.Wrong("25"));
    }

    [Fact]
    public void A_shorter_job_is_right_however_it_is_said_and_a_longer_one_is_told()
    {
        Record[] rows = [.. Enumerable.Range(0, 3).Select(row => Record.Row(RecordWidth.Four, Head.A, new Cell(2, 5 + row), 0, 4))];
        var exercise = new ShortenExercise(new("rows", rows, [Record.Patch(Head.A, new Cell(2, 5), 4, 3, PatchWay.AlongX)]));
        Assert.Null(exercise.Wrong("60 25 32"));
        Assert.Null(exercise.Wrong("62 25 32 00 00 00")); // along Y first
        Assert.Equal("it does the same in 3 records, and 1 will do", exercise.Wrong("40 25 03 40 26 03 40 27 03"));
        Assert.Equal("it works other cells: 4 missing, 0 too many", exercise.Wrong("60 25 31"));
        Assert.StartsWith("record 0 (byte 0): found", exercise.Wrong("60 F5 32"));
        Assert.StartsWith("write whole records", exercise.Wrong("60 25"));
    }

    [Theory]
    [InlineData("16: 4", "the number of an exercise, 1 to 15")]
    [InlineData("4", "the number of an exercise, 1 to 15")]
    [InlineData("1: go\n1: row", "one for each")]
    public void A_line_that_is_no_answer_is_refused(string text, string allowed) =>
        Assert.Contains(allowed, Assert.Throws<RefusedException>(() => new Lesson(1, null).Mark(Bytes(text), "answers")).Refusals[0].Allowed);

    [Theory]
    [MemberData(nameof(Levels))]
    public void Every_question_and_every_answer_stands_on_the_paper_whole(int? level)
    {
        for (var seed = 0; seed < 40; seed++)
        {
            var lesson = new Lesson(seed, level);
            using var document = PdfDocument.Open(PageFile.Of("x.pdf", "lesson", LessonPages.Of(lesson, withAnswers: true)));
            var text = string.Concat(document.GetPages()
                .Select(page => Squeezed(string.Concat(page.Letters.OrderByDescending(letter => Math.Round(letter.StartBaseLine.Y))
                .ThenBy(letter => letter.StartBaseLine.X).Select(letter => letter.Value)))));
            Assert.All(lesson.Exercises, exercise => Assert.Contains(Squeezed(exercise.Answer), text));
            Assert.All(lesson.Exercises.SelectMany(exercise => exercise.Question), line =>
                Assert.Contains(Squeezed(line)[..Math.Min(20, Squeezed(line).Length)], text));
            Assert.All(document.GetPages().SelectMany(page => page.Letters), letter => Assert.True(letter.EndBaseLine.X < 580 && letter.StartBaseLine.Y > 25));
        }
    }

    [Fact]
    public void No_text_runs_into_the_stars()
    {
        for (var seed = 0; seed < 200; seed++)
            foreach (var page in LessonPages.Of(new Lesson(seed, null), withAnswers: false))
            {
                var texts = page.Marks.OfType<Mark.Text>().ToList();
                foreach (var stars in texts.Where(text => text.Words.All(letter => letter == '*')))
                    Assert.All(texts.Where(text => text.Y == stars.Y && text.X < stars.X),
                        text => Assert.True(text.X + text.Words.Length * text.SizeMm * Page.LetterWidth < stars.X - 1, $"{seed}: {text.Words}"));
            }
    }

    [Fact]
    public void The_reminder_says_what_a_line_does_and_which_bits_are_zero()
    {
        var words = string.Join(' ', LessonPages.Of(new Lesson(1, null), withAnswers: false)[0].Marks.OfType<Mark.Text>().Select(text => text.Words));
        Assert.Contains("4 line: works each cell of the straight line", words);
        Assert.Contains("head, heading and rise of an again", words);
    }

    [Fact]
    public void A_lesson_without_answers_has_none() => Assert.True(
        LessonPages.Of(new Lesson(3, null), withAnswers: false).Count < LessonPages.Of(new Lesson(3, null), withAnswers: true).Count);

    private static string AnswersOf(Lesson lesson) => string.Join('\n', lesson.Exercises.Select((exercise, index) => $"{index + 1}: {exercise.Answer}"));

    // Each answer with one of its words changed, or its bytes by one bit.
    private static IEnumerable<string> Changed(Exercise exercise)
    {
        var words = exercise.Answer.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return exercise switch
        {
            FlippedBitExercise => Enumerable.Range(0, 30).Select(bit => $"{bit}").Where(bit => bit != exercise.Answer),
            CellsExercise => words.Select(word => string.Join(' ', words.Except([word]))).Append($"{exercise.Answer} 15,16"),
            EncodeExercise => Enumerable.Range(0, 24).Select(bit => $"{Convert.ToInt32(string.Concat(words), 16) ^ 1 << bit:X6}"),
            ShortenExercise => [string.Join(' ', words.SkipLast(3)), $"{exercise.Answer} C0 01 01", $"{exercise.Answer} 20 00 00"],
            _ => words.Select((_, at) => string.Join(' ', words.Select((word, index) => index == at ? $"{word}1" : word))),
        };
    }

    private static Record RecordOf(int word) => RecordCodec.Read(RecordWidth.Four, [(byte)(word >> 16), (byte)(word >> 8), (byte)word]);

    // Null where the record may not be done.
    private static HashSet<(Cell, int, Head)>? WorkOf(Record record)
    {
        var (work, interpreter) = (new HashSet<(Cell, int, Head)>(), new Interpreter(Image.Of(RecordWidth.Four, [record, Record.End]), Exercise.Grid));
        while (interpreter.MoveNext())
            work.Add((interpreter.Current.Cell, interpreter.Current.Layer, interpreter.Current.Head));
        return interpreter.Fault is null ? work : null;
    }

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);

    private static string Squeezed(string text) => text.Replace(" ", "", StringComparison.Ordinal);
}
