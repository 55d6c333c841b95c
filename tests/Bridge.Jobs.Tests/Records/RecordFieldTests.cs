namespace Bridge.Jobs.Tests;

public class RecordFieldTests
{
    [Fact]
    public void The_fields_of_a_narrow_record_stand_in_columns()
    {
        var fields = RecordField.Of(RecordWidth.Four, new Record(Verb.Row, Head.B, 2, true, 3, 10, 0, 4));
        Assert.Equal(
            [
                "verb  head  heading  rise  x     y     p     q",
                "010   1     010      1     0011  1010  0000  0100",
                "row   b     2        up    3     10    0     4",
            ], RecordField.Table(fields));
    }

    [Fact]
    public void The_fields_of_a_wide_record_stand_in_wider_columns()
    {
        var fields = RecordField.Of(RecordWidth.Eight, new Record(Verb.Go, Head.A, 0, false, 200, 1, 0, 255));
        Assert.Equal(
            [
                "verb  head  heading  rise  x         y         p         q",
                "001   0     000      0     11001000  00000001  00000000  11111111",
                "go    a     0        -     200       1         0         255",
            ], RecordField.Table(fields));
    }
}
