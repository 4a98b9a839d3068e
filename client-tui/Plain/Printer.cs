using FuelHistory.Client.Api;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Plain;

internal static class ExitCodes
{
    public const int Done = 0;
    public const int Refused = 1;
    public const int Usage = 2;
    public const int Unreachable = 3;
    public const int Broken = 4;
}

/// <summary>Writes answers as text or as the API's own JSON, and turns them into exit codes.</summary>
internal sealed class Printer(TextWriter output, TextWriter errors, ApiCalls calls, bool json, Signs signs, int width)
{
    public Signs Signs => signs;

    public int Width => width;

    /// <param name="entering">Whether something may have been stored although no answer came.</param>
    public int Print<T>(Answer<T> answer, Func<T, IEnumerable<Line>> lines, bool entering = false) => answer switch
    {
        Got<T> got => Done(lines(got.Value)),
        Refused<T> refused => Refuse(refused.Problem),
        Unreachable<T> gone => Silent(gone.Why, entering && gone.MayHaveArrived),
        _ => throw new InvalidOperationException("an answer is one of three"),
    };

    public int Usage(string message)
    {
        errors.WriteLine(message);
        return ExitCodes.Usage;
    }

    public int Wrong(IEnumerable<Fault> faults)
    {
        foreach (var fault in faults) errors.WriteLine($"{fault.Pointer.TrimStart('/')}: {fault.Detail}");
        return ExitCodes.Usage;
    }

    private int Done(IEnumerable<Line> lines)
    {
        if (json) output.WriteLine(calls.LastText);
        else foreach (var line in lines) output.WriteLine(line.Text.TrimEnd());
        return ExitCodes.Done;
    }

    private int Refuse(Problem problem)
    {
        if (json) output.WriteLine(calls.LastText);
        errors.WriteLine(Clean.Of($"{problem.Title}: {problem.Detail}", signs));
        foreach (var fault in problem.Errors ?? []) errors.WriteLine(Clean.Of($"  {fault.Pointer.TrimStart('/')}: {fault.Detail} ({fault.Code})", signs));
        if (problem.Errors?.Any(fault => fault.Code == Problems.Implausible) is true) errors.WriteLine("  If the value is right, say so with --confirmed.");
        return ExitCodes.Refused;
    }

    private int Silent(string why, bool mayHaveArrived)
    {
        errors.WriteLine(mayHaveArrived ? $"No proper answer: {why}. Something may be stored: look before entering it again." : $"No proper answer: {why}.");
        return ExitCodes.Unreachable;
    }
}
