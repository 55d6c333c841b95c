namespace Bridge.Planning;

/// <summary>
/// A largest matching of a graph with two sides (Hopcroft and Karp, SIAM Journal on Computing 2, 1973), and from it a largest
/// set of nodes no two of which are joined (König's theorem): time grows with the edges times the root of the nodes.
/// </summary>
internal sealed class BipartiteMatching
{
    private const int None = -1;

    private readonly int[][] _neighbours; // of each left node
    private readonly int[] _leftMate;
    private readonly int[] _rightMate;
    private readonly int[] _distance;
    private readonly int[] _tried; // how many neighbours a left node has tried in this phase

    /// <summary>Matches; the right nodes that each left node is joined with are given.</summary>
    public BipartiteMatching(int[][] neighbours, int rightNodes)
    {
        _neighbours = neighbours;
        _leftMate = Enumerable.Repeat(None, neighbours.Length).ToArray();
        _rightMate = Enumerable.Repeat(None, rightNodes).ToArray();
        _distance = new int[neighbours.Length];
        _tried = new int[neighbours.Length];
        while (Layer())
        {
            Array.Clear(_tried);
            for (var left = 0; left < neighbours.Length; left++)
                if (_leftMate[left] == None && Augment(left))
                    Size++;
        }
    }

    /// <summary>Pairs matched.</summary>
    public int Size { get; private set; }

    /// <summary>A largest set of nodes without an edge between any two: all nodes less one of each pair.</summary>
    public (bool[] Left, bool[] Right) LargestIndependentSet()
    {
        var left = new bool[_leftMate.Length];
        var right = Enumerable.Repeat(true, _rightMate.Length).ToArray();
        var reached = new Stack<int>(Enumerable.Range(0, left.Length).Where(node => _leftMate[node] == None));
        foreach (var node in reached)
            left[node] = true;
        while (reached.TryPop(out var node))
            foreach (var neighbour in _neighbours[node])
            {
                right[neighbour] = false;
                var mate = _rightMate[neighbour];
                if (mate == None || left[mate])
                    continue;
                left[mate] = true;
                reached.Push(mate);
            }
        return (left, right);
    }

    // Breadth first from the free left nodes; true where a free right node is reached.
    private bool Layer()
    {
        var isFreeReached = false;
        var waiting = new Queue<int>();
        for (var left = 0; left < _distance.Length; left++)
        {
            _distance[left] = _leftMate[left] == None ? 0 : int.MaxValue;
            if (_leftMate[left] == None)
                waiting.Enqueue(left);
        }
        while (waiting.TryDequeue(out var left))
            foreach (var right in _neighbours[left])
            {
                var mate = _rightMate[right];
                if (mate == None)
                    isFreeReached = true;
                else if (_distance[mate] == int.MaxValue)
                {
                    _distance[mate] = _distance[left] + 1;
                    waiting.Enqueue(mate);
                }
            }
        return isFreeReached;
    }

    // Depth first along the layers, with a stack of its own: a path may be as long as there are nodes.
    private bool Augment(int start)
    {
        var path = new Stack<int>([start]);
        while (path.TryPeek(out var left))
        {
            if (_tried[left] == _neighbours[left].Length)
            {
                _distance[left] = int.MaxValue;
                path.Pop();
                continue;
            }
            var right = _neighbours[left][_tried[left]++];
            var mate = _rightMate[right];
            if (mate == None)
            {
                Flip(path, right);
                return true;
            }
            if (_distance[mate] == _distance[left] + 1)
                path.Push(mate);
        }
        return false;
    }

    private void Flip(Stack<int> path, int right)
    {
        foreach (var left in path)
        {
            var next = _leftMate[left];
            (_leftMate[left], _rightMate[right]) = (right, left);
            right = next;
        }
    }
}
