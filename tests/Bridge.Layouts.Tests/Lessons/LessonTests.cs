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
        for (var seed = 0; seed < 300; seed++)
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
        Assert.Equal([1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3], lesson.Exercises.Select(exercise => exercise.Level));
        Assert.Equal(AnswersOf(lesson), AnswersOf(new Lesson(7, null)));
        Assert.NotEqual(AnswersOf(lesson), AnswersOf(new Lesson(8, null)));
    }

    // Worked by hand from JOB-FORMAT.md.
    [Theory]
    [InlineData("row a 0 0 1 2 0 4", null)]
    [InlineData("ROW  a 0 0 1 2 0 4 ", null)]
    [InlineData("row b 0 0 1 2 0 5", "not right: head, q")]
    [InlineData("row a 1 2 0 4", "6 words, where 8 are asked for")]
    public void A_decoded_record_is_marked_word_by_word(string typed, string? wrong) =>
        Assert.Equal(wrong, new DecodeExercise(1, Record.Row(RecordWidth.Four, Head.A, new Cell(1, 2), 0, 5)).Wrong(typed));

    [Fact]
    public void Cells_may_be_named_in_any_order_and_what_is_wrong_with_them_is_counted()
    {
        var exercise = new CellsExercise(1, Record.Row(RecordWidth.Four, Head.A, new Cell(1, 2), 2, 3));
        Assert.Null(exercise.Wrong("1,4 1,2 1,3"));
        Assert.Equal("1 of 3 cells missing, 1 too many, such as 2,2", exercise.Wrong("1,4 1,3 2,2"));
        Assert.Equal("\"1;4\" is no cell: write x,y", exercise.Wrong("1;4"));
    }

    [Fact]
    public void A_flipped_bit_is_counted_from_the_left()
    {
        var exercise = new FlippedBitExercise(1, Record.Row(RecordWidth.Four, Head.A, new Cell(1, 2), 0, 5), 9);
        Assert.Contains("01000000 01010010 00000100", exercise.Question[1]); // 40 12 04 with the tenth bit changed
        Assert.Null(exercise.Wrong(" 10 "));
        Assert.Equal("not bit 9", exercise.Wrong("9"));
        Assert.Equal("write a number from 1 to 24", exercise.Wrong("25"));
    }

    [Fact]
    public void A_shorter_job_is_right_however_it_is_said_and_a_longer_one_is_told()
    {
        Record[] rows = [.. Enumerable.Range(0, 3).Select(row => Record.Row(RecordWidth.Four, Head.A, new Cell(2, 5 + row), 0, 4))];
        var exercise = new ShortenExercise(1, rows, [Record.Patch(Head.A, new Cell(2, 5), 4, 3, PatchWay.AlongX)]);
        Assert.Null(exercise.Wrong("60 25 32"));
        Assert.Null(exercise.Wrong("62 25 32 00 00 00")); // along Y first
        Assert.Equal("it works the same cells in 3 records, and 1 will do", exercise.Wrong("40 25 03 40 26 03 40 27 03"));
        Assert.Equal("it works other cells: 4 missing, 0 too many", exercise.Wrong("60 25 31"));
        Assert.StartsWith("record 0 (byte 0): found", exercise.Wrong("60 F5 32"));
        Assert.StartsWith("write whole records", exercise.Wrong("60 25"));
    }

    [Theory]
    [InlineData("13: 4", "the number of an exercise, 1 to 12")]
    [InlineData("4", "the number of an exercise, 1 to 12")]
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

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);

    private static string Squeezed(string text) => text.Replace(" ", "", StringComparison.Ordinal);
}
