using System.Net;
using System.Net.Sockets;
using System.Runtime.ExceptionServices;
using System.Text.Json;
using FuelHistory.Client.Child;
using FuelHistory.Contracts;
using Polly;
using Polly.Timeout;
using Refit;

namespace FuelHistory.Client.Api;

/// <summary>Turns every call into an answer; the only place of the client that catches what a call throws.</summary>
internal sealed class ApiCalls(IFuelApi api, LastBody last)
{
    /// <summary>The text of the newest answer as the host sent it.</summary>
    public string LastText => last.Text;

    public async Task<Answer<T>> Ask<T>(Func<IFuelApi, Task<IApiResponse<T>>> call)
    {
        try
        {
            using var response = await call(api).ConfigureAwait(false);
            if (response.IsSuccessful && response.Content is not null) return new Got<T>(response.Content);
            return response.Error is ApiException error ? FromError<T>(error, response.StatusCode) : NoAnswer<T>(response.Error);
        }
        catch (Exception e) when (e is HttpRequestException or ApiExceptionBase or OperationCanceledException or JsonException
            or TimeoutRejectedException or ExecutionRejectedException or IOException)
        {
            return NoAnswer<T>(e);
        }
    }

    /// <summary>A call beside the one whose answer is shown: the newest answer's text stays that of the call before.</summary>
    public async Task<Answer<T>> AskAside<T>(Func<IFuelApi, Task<IApiResponse<T>>> call)
    {
        var shown = last.Text;
        var answer = await Ask(call).ConfigureAwait(false);
        last.Text = shown;
        return answer;
    }

    private static Answer<T> FromError<T>(ApiException error, HttpStatusCode? status)
    {
        if (status is { } code && (int)code < 400) return new Unreachable<T>("the server's answer could not be read", MayHaveArrived: true);
        var problem = ReadProblem(error.Content);
        return problem is not null
            ? new Refused<T>(problem)
            : new Unreachable<T>($"the server answered {(int?)status} without a reason", MayHaveArrived: true);
    }

    /// <summary>Null where the text is no problem in the agreed shape: a proxy's page, half an answer.</summary>
    private static Problem? ReadProblem(string? text)
    {
        if (string.IsNullOrWhiteSpace(text)) return null;
        try
        {
            return JsonSerializer.Deserialize(text, ClientJson.Default.Problem);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static Unreachable<T> NoAnswer<T>(Exception? error)
    {
        for (var inner = error; inner is not null; inner = inner.InnerException)
        {
            // there is no server at all, and it is known why
            if (inner is ChildFailure) ExceptionDispatchInfo.Throw(inner);
            if (inner is SocketException { SocketErrorCode: SocketError.ConnectionRefused or SocketError.HostNotFound or SocketError.TryAgain })
                return new("nothing listens at the server's address", MayHaveArrived: false);
            if (inner is TimeoutRejectedException or OperationCanceledException)
                return new("the server did not answer in time", MayHaveArrived: true);
            if (inner is JsonException)
                return new("the server's answer could not be read", MayHaveArrived: true);
        }
        return new("the connection to the server broke", MayHaveArrived: true);
    }
}
