namespace FuelHistory.Host.Features.LeakImports;

/// <summary>A text whose lines are of bearable length: an endless one is refused where it grows too long, not when it is in memory.</summary>
internal sealed class ShortLines(TextReader text) : TextReader
{
    private const int Longest = 64 * 1024;
    private int sinceLineEnd;

    public override int Peek() => text.Peek();

    public override int Read()
    {
        Span<char> one = stackalloc char[1];
        return Read(one) == 0 ? -1 : one[0];
    }

    public override int Read(char[] buffer, int index, int count) => Read(buffer.AsSpan(index, count));

    public override int Read(Span<char> buffer)
    {
        var read = text.Read(buffer);
        var end = buffer[..read].LastIndexOfAny('\n', '\r');
        sinceLineEnd = end < 0 ? sinceLineEnd + read : read - end - 1;
        return sinceLineEnd > Longest ? throw new InvalidDataException($"A line is longer than {Longest} characters.") : read;
    }
}
