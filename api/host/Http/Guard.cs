namespace FuelHistory.Host.Http;

/// <summary>Headers that every answer carries, and a fence against web pages that try to reach a program on this machine:
/// while it listens on loopback only, it answers to loopback names only, so that no foreign name can be pointed at it.</summary>
internal sealed class Guard(RequestDelegate next)
{
    public Task InvokeAsync(HttpContext context)
    {
        var headers = context.Response.Headers;
        headers.CacheControl = "private, no-cache";
        headers.XContentTypeOptions = "nosniff";
        var local = context.Connection.LocalIpAddress;
        if (local is not null && System.Net.IPAddress.IsLoopback(local) && !IsLoopbackName(context.Request.Host.Host))
        {
            return ProblemAnswers.Malformed(StatusCodes.Status421MisdirectedRequest, $"This program answers on this machine only, not as \"{context.Request.Host.Host}\".").ExecuteAsync(context);
        }

        return next(context);
    }

    private static bool IsLoopbackName(string host) =>
        host is "localhost" || (System.Net.IPAddress.TryParse(host.Trim('[', ']'), out var address) && System.Net.IPAddress.IsLoopback(address));
}
