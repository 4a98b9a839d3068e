using FuelHistory.Contracts;

namespace FuelHistory.Client.Api;

/// <summary>What came of a call: got it, refused by the host, or no usable answer.</summary>
internal abstract record Answer<T>
{
    /// <summary>Goes on with the value; a refusal or a silence is passed along.</summary>
    public async Task<Answer<TNext>> Then<TNext>(Func<T, Task<Answer<TNext>>> next) => this switch
    {
        Got<T> got => await next(got.Value).ConfigureAwait(false),
        Refused<T> refused => new Refused<TNext>(refused.Problem),
        Unreachable<T> gone => new Unreachable<TNext>(gone.Why, gone.MayHaveArrived),
        _ => throw new InvalidOperationException("an answer is one of three"),
    };

    public Answer<TNext> As<TNext>(Func<T, TNext> turn) => this switch
    {
        Got<T> got => new Got<TNext>(turn(got.Value)),
        Refused<T> refused => new Refused<TNext>(refused.Problem),
        Unreachable<T> gone => new Unreachable<TNext>(gone.Why, gone.MayHaveArrived),
        _ => throw new InvalidOperationException("an answer is one of three"),
    };
}

internal sealed record Got<T>(T Value) : Answer<T>;

internal sealed record Refused<T>(Problem Problem) : Answer<T>;

/// <summary>MayHaveArrived: the request went out, so that something may have been stored although no answer came.</summary>
internal sealed record Unreachable<T>(string Why, bool MayHaveArrived) : Answer<T>;
