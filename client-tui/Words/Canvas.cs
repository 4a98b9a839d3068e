namespace FuelHistory.Client.Words;

/// <summary>A field of cells painted in points finer than a cell where the terminal has signs for it: braille (2 by 4), blocks (2 by 2), else ASCII.</summary>
internal sealed class Canvas(int columns, int rows, Signs signs)
{
    private const string Quarters = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█";

    // the bits of a braille sign by column and row of its points
    private static readonly int[,] Braille = { { 0x01, 0x02, 0x04, 0x40 }, { 0x08, 0x10, 0x20, 0x80 } };

    private readonly int[,] _points = new int[columns, rows];
    private readonly Span[,] _signs = new Span[columns, rows];

    public int Across { get; } = signs.Ascii ? 1 : 2;

    public int Down { get; } = signs.Ascii ? 1 : signs.Braille ? 4 : 2;

    public int Columns => columns;

    public int Rows => rows;

    /// <summary>A point, counted from the upper left; outside of the field it is passed over.</summary>
    /// <param name="ascii">The sign that stands for it where a cell is one point.</param>
    public void Point(int x, int y, Role role, string ascii)
    {
        if (x < 0 || y < 0 || x >= columns * Across || y >= rows * Down) return;
        var (column, row) = (x / Across, y / Down);
        _points[column, row] |= signs.Braille ? Braille[x % 2, y % 4] : signs.Ascii ? 1 : 1 << ((y % 2 * 2) + (x % 2));
        _signs[column, row] = new Span(signs.Ascii ? ascii : "", role);
    }

    /// <summary>A sign over whatever is in the cell.</summary>
    public void Sign(int column, int row, string sign, Role role)
    {
        if (column < 0 || row < 0 || column >= columns || row >= rows) return;
        _points[column, row] = 0;
        _signs[column, row] = new Span(sign, role);
    }

    /// <summary>The cells of a row, neighbours of one role together.</summary>
    public IReadOnlyList<Span> Row(int row)
    {
        List<Span> spans = [];
        for (var column = 0; column < columns; column++)
        {
            var cell = Cell(column, row);
            if (spans.Count > 0 && spans[^1].Role == cell.Role) spans[^1] = spans[^1] with { Text = spans[^1].Text + cell.Text };
            else spans.Add(cell);
        }
        return spans;
    }

    private Span Cell(int column, int row)
    {
        var (points, sign) = (_points[column, row], _signs[column, row]);
        if (!string.IsNullOrEmpty(sign.Text)) return sign;
        if (points == 0) return new Span(" ");
        return new Span((signs.Braille ? (char)(0x2800 + points) : Quarters[points]).ToString(), sign.Role);
    }
}
