using Bridge.Jobs;

namespace Bridge.Runs.Tests;

public class SettledDoubtWordsTests
{
    private static readonly SettledDoubt One = new()
    {
        Record = 3, Layer = 1, First = new Cell(5, 2), Last = new Cell(5, 2), Cells = 1, RecordsAfter = 0, Decision = InDoubt.Redo,
    };

    [Fact]
    public void Cells_worked_again_may_have_been_worked_twice_by_a_persons_decision()
    {
        Assert.Equal("In record 3, cell (5, 2) on layer 1 may have been worked twice, by decision of the person who went on with the run.",
            SettledDoubtWords.Of(One));
        Assert.StartsWith("In record 3, 4 cells on layer 1, from (5, 2) to (8, 2), may have been worked twice",
            SettledDoubtWords.Of(One with { Cells = 4, Last = new Cell(8, 2) }));
    }

    [Fact]
    public void Cells_left_as_they_are_may_not_have_been_worked_by_a_persons_decision()
    {
        Assert.Equal("In record 3, cell (5, 2) on layer 1 may not have been worked: left as it is, by decision of the person who went on with the run.",
            SettledDoubtWords.Of(One with { Decision = InDoubt.Skip }));
        Assert.EndsWith("may not have been worked: left as they are, by decision of the person who went on with the run.",
            SettledDoubtWords.Of(One with { Cells = 4, Last = new Cell(8, 2), Decision = InDoubt.Skip }));
    }

    [Fact]
    public void One_record_after_it_is_told_as_one() => Assert.EndsWith(
        "Of the record after record 3 too cells may have been worked twice: sent before the run was cut off, and worked when it went on.",
        SettledDoubtWords.Of(One with { RecordsAfter = 1 }));

    [Theory]
    [InlineData(InDoubt.Redo)]
    [InlineData(InDoubt.Skip)]
    public void Records_after_it_that_had_been_sent_are_worked_again_whatever_was_decided(InDoubt decision) =>
        Assert.StartsWith("Of the 2 records after record 3 too cells may have been worked twice",
            SettledDoubtWords.Of(One with { Cells = 0, First = null, Last = null, RecordsAfter = 2, Decision = decision }));
}
