namespace Bridge.Planning.Tests;

public class FewestByTryingTests
{
    [Theory]
    [InlineData("A", 1, 1)]
    [InlineData("A.A\n.A.\nA.A", 3, 2)]
    [InlineData(".A.\nAAA\n.A.", 3, 2)]
    [InlineData("AAA\nAAA\nAAA", 1, 1)]
    [InlineData("A..\n.A.\n..A", 1, 1)]
    [InlineData("AA\nA.", 2, 2)]
    public void What_is_told_by_trying_is_right_for_shapes_that_a_person_can_count(string text, int apart, int overlapping)
    {
        Assert.Equal(apart, FewestByTrying.Of(Masks.Text(text), mayOverlap: false));
        Assert.Equal(overlapping, FewestByTrying.Of(Masks.Text(text), mayOverlap: true));
    }
}
