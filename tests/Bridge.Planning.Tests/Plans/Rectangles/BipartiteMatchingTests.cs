using CsCheck;

namespace Bridge.Planning.Tests;

public class BipartiteMatchingTests
{
    private static readonly Gen<(int[][] Neighbours, int Right)> Graphs =
        from left in Gen.Int[0, 8]
        from right in Gen.Int[1, 8]
        from edges in Gen.Int[0, right - 1].Array[0, 5].Array[left]
        select (edges.Select(nodes => nodes.Distinct().ToArray()).ToArray(), right);

    [Fact]
    public void The_matching_is_as_large_as_any() =>
        Graphs.Sample(graph => Assert.Equal(Largest(graph.Neighbours, 0, []), new BipartiteMatching(graph.Neighbours, graph.Right).Size),
            seed: "0000match001", iter: 500);

    // König's theorem: in a graph with two sides the two numbers add up to the nodes.
    [Fact]
    public void The_independent_set_holds_no_joined_nodes_and_all_but_one_of_each_pair() =>
        Graphs.Sample(graph =>
        {
            var matching = new BipartiteMatching(graph.Neighbours, graph.Right);
            var (left, right) = matching.LargestIndependentSet();
            Assert.All(graph.Neighbours.Index(), node => Assert.True(!left[node.Index] || node.Item.All(neighbour => !right[neighbour])));
            Assert.Equal(graph.Neighbours.Length + graph.Right - matching.Size, left.Count(isIn => isIn) + right.Count(isIn => isIn));
        }, seed: "0000match002", iter: 500);

    [Fact]
    public void A_long_path_of_neighbours_is_matched_whole()
    {
        const int Nodes = 20_000;
        var path = Enumerable.Range(0, Nodes).Select(node => node == 0 ? new[] { 0 } : [node - 1, node]).ToArray();
        Assert.Equal(Nodes, new BipartiteMatching(path, Nodes).Size);
    }

    private static int Largest(int[][] neighbours, int node, HashSet<int> taken)
    {
        if (node == neighbours.Length)
            return 0;
        var best = Largest(neighbours, node + 1, taken);
        foreach (var right in neighbours[node].Where(right => !taken.Contains(right)))
            best = Math.Max(best, 1 + Largest(neighbours, node + 1, [.. taken, right]));
        return best;
    }
}
