namespace Bridge.Jobs;

/// <summary>Goes through the cells of a path in order, by Bresenham's algorithm (IBM Systems Journal 4(1), 1965) on each leg.</summary>
public struct CellPathEnumerator
{
    private readonly CellPath _path;
    private bool _startIsDue;
    private int _leg;
    private int _left;          // cells left on the leg
    private int _x, _y;
    private int _majorX, _majorY, _minorX, _minorY;
    private int _discriminant, _straight, _diagonal;

    internal CellPathEnumerator(CellPath path)
    {
        _path = path;
        _startIsDue = path.WorksStart;
        _leg = -1;
        (_x, _y) = (path.Start.X, path.Start.Y);
    }

    /// <summary>The cell it stands on.</summary>
    public readonly Cell Current => new(_x, _y);

    /// <summary>Goes to the next cell; false when there is none.</summary>
    public bool MoveNext()
    {
        if (_startIsDue)
        {
            _startIsDue = false;
            return true;
        }

        while (_left == 0)
        {
            if (++_leg >= _path.Legs)
                return false;
            Enter(_path.LegAt(_leg));
        }

        Step();
        return true;
    }

    private void Enter(Leg leg)
    {
        var (dx, dy) = (leg.To.X - leg.From.X, leg.To.Y - leg.From.Y);
        var (lengthX, lengthY) = (Math.Abs(dx), Math.Abs(dy));
        var alongX = lengthX >= lengthY;
        (_majorX, _majorY) = alongX ? (Math.Sign(dx), 0) : (0, Math.Sign(dy));
        (_minorX, _minorY) = alongX ? (0, Math.Sign(dy)) : (Math.Sign(dx), 0);
        var (major, minor) = alongX ? (lengthX, lengthY) : (lengthY, lengthX);
        _discriminant = 2 * minor - major;
        _straight = 2 * minor;
        _diagonal = 2 * (minor - major);
        _left = major;
    }

    private void Step()
    {
        _x += _majorX;
        _y += _majorY;
        if (_discriminant >= 0)
        {
            _x += _minorX;
            _y += _minorY;
            _discriminant += _diagonal;
        }
        else
        {
            _discriminant += _straight;
        }

        _left--;
    }
}
